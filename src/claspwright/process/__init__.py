"""From powder to finished denture: feedstock, stress relief, finishing, acrylic."""

from claspwright.process.acrylic import (
    LONG_CYCLE,
    OBSERVED_LINEAR,
    SHORT_CYCLE,
    AcrylicAmount,
    CureStep,
    acrylic_amount,
    flexural_modulus,
    flexural_strength,
    judge_cure,
    linear_shrinkage,
)
from claspwright.process.certificate import Certificate, judge_certificate
from claspwright.process.feedstock import (
    MassBalance,
    Powder,
    blended,
    judge_balance,
    judge_powder,
    virgin,
)
from claspwright.process.finishing import (
    SURFACES,
    FinishingPlan,
    FinishingSheet,
    SurfaceKind,
    allowance_um,
    finishing_sheet,
)
from claspwright.process.furnace import (
    FurnaceLog,
    FurnaceRun,
    Schedule,
    judge_run,
    schedule,
    schedule_names,
)
from claspwright.process.tables import process_limits
from claspwright.process.thermal import (
    Body,
    Slab,
    film_of_radiation,
    lumped,
    slab_temperatures,
    time_at_temperature,
)

__all__ = [
    "LONG_CYCLE",
    "OBSERVED_LINEAR",
    "SHORT_CYCLE",
    "SURFACES",
    "AcrylicAmount",
    "Body",
    "Certificate",
    "CureStep",
    "FinishingPlan",
    "FinishingSheet",
    "FurnaceLog",
    "FurnaceRun",
    "MassBalance",
    "Powder",
    "Schedule",
    "Slab",
    "SurfaceKind",
    "acrylic_amount",
    "allowance_um",
    "blended",
    "film_of_radiation",
    "finishing_sheet",
    "flexural_modulus",
    "flexural_strength",
    "judge_balance",
    "judge_certificate",
    "judge_cure",
    "judge_powder",
    "judge_run",
    "linear_shrinkage",
    "lumped",
    "process_limits",
    "schedule",
    "schedule_names",
    "slab_temperatures",
    "time_at_temperature",
    "virgin",
]
