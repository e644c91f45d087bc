"""The laboratory's own prices, kept in its file beside its particulars.

::

    [rates]
    currency = "EUR"
    powder_per_g = 0.31
    machine_per_build = 150.0
    furnace_per_hour = 7.5
    labour_per_framework = 120.0
    casting_per_framework = 260.0     # or, by shares:

    [rates.casting]
    alloy_g = 25.0
    alloy_per_g = 0.4
    materials = 20.0
    labour = 170.0
    remake_share = 0.05
"""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping
from dataclasses import asdict, fields, replace
from pathlib import Path
from typing import Any

import tomlkit

from claspwright.app.month import Casting, Rates
from claspwright.app.whole_file import write_whole_text
from claspwright.base import InputError

RATES = "rates"  # the table in the file
_PRICES = tuple(f.name for f in fields(Rates) if f.name not in ("currency", "casting", "given"))
_SHARES = tuple(f.name for f in fields(Casting))


def read_rates(path: Path) -> Rates:
    """What things cost, from the laboratory's file; those of an example where it has no table.

    Raises:
        InputError: the file cannot be read, a price is none, or a word is not known.
    """
    try:
        rows = tomllib.loads(path.read_text(encoding="utf-8")).get(RATES)
    except FileNotFoundError:
        return Rates()
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise InputError(f"the file cannot be read: {error}", place=path.name) from error
    return Rates() if rows is None else rates_from(rows, path.name)


def rates_from(rows: Any, place: str) -> Rates:  # Any: whatever the file holds
    """Prices out of a table, each checked.

    Raises:
        InputError: a price is none, or a word is not known.
    """
    if not isinstance(rows, Mapping):
        raise InputError("the rates must be a table", place=place)
    cast = rows.get("casting", {})
    if not isinstance(cast, Mapping):
        raise InputError("the shares of casting must be a table", place=place)
    known = {"currency", "casting", *_PRICES}
    strange = sorted({*rows} - known) + sorted({*cast} - {*_SHARES})
    if strange:
        raise InputError(
            f"there is no price {strange[0]!r}", place=f"{place}, {RATES}",
            remedy=f"Known are: {', '.join((*_PRICES, *_SHARES))}.",
        )  # fmt: skip
    prices = {name: _price(rows[name], name, place) for name in _PRICES if name in rows}
    shares = {name: _price(cast[name], name, place) for name in _SHARES if name in cast}
    currency = str(rows.get("currency", Rates().currency)).strip()
    return Rates(
        currency=currency or Rates().currency, casting=_casting(shares), given=True, **prices
    )


def write_rates(path: Path, rates: Rates) -> None:
    """Put prices into the laboratory's file; what else stands there stays."""
    try:
        text = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        text = ""
    told = {name: value for name, value in asdict(rates).items() if name != "given"}
    if told["casting"] is None:
        del told["casting"]
    rates_from(told, path.name)
    document = tomlkit.parse(text)
    document[RATES] = told
    write_whole_text(path, tomlkit.dumps(document))


def changed(
    rates: Rates, prices: Mapping[str, float | str | None], shares: Mapping[str, float | None]
) -> Rates:
    """Prices with some of them told anew; None: as it was.

    Args:
        rates: as they are.
        prices: by the names of `Rates`.
        shares: by the names of `Casting`; all of them 0 or untold: no shares.
    """
    told = {name: value for name, value in prices.items() if value is not None}
    cast = asdict(rates.casting) if rates.casting else {}
    cast |= {name: value for name, value in shares.items() if value is not None}
    any_told = bool(told) or any(value is not None for value in shares.values())
    return replace(
        rates, casting=_casting(cast), given=rates.given or any_told,
        **told,  # type: ignore[arg-type] # names and kinds are those of the fields
    )  # fmt: skip


def _casting(shares: Mapping[str, float]) -> Casting | None:
    """Shares of casting; None where they amount to nothing."""
    told = {**dict.fromkeys(_SHARES, 0.0), **shares}
    some = any(told[name] for name in ("alloy_g", "materials", "labour"))
    return Casting(**told) if some else None


def _price(value: Any, name: str, place: str) -> float:  # Any: whatever the file holds
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise InputError(f"{name} is no number: {value!r}", place=f"{place}, {RATES}")
    if value < 0:
        raise InputError(f"{name} is below zero: {value:g}", place=f"{place}, {RATES}")
    return float(value)
