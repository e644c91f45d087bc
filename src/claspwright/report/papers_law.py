"""Documents that law or duty asks for: statement, authorisation, label, leaflet, vigilance."""

from __future__ import annotations

from collections.abc import Sequence

from claspwright.report.case_record import CHECK_LAW, CaseRecord, Laboratory, PartRecord
from claspwright.report.paper import (
    Block,
    Boxes,
    Bullets,
    Drawing,
    Fields,
    Heading,
    Notice,
    Paper,
    Sign,
    Table,
    Text,
    qr_code,
)

SOURCE_XIII = "Regulation (EU) 2017/745, Annex XIII, section 1"


def statement(case: CaseRecord, lab: Laboratory) -> Paper:
    """The statement for a custom-made device, with every point of Annex XIII, section 1.

    Source:
        Regulation (EU) 2017/745, Annex XIII, section 1, and Annex I, 10.4; check-values I01 to
        I11 (points a to c and I11 from memory).
    """
    cobalt = "cobalt" in case.alloy_elements
    blocks: list[Block] = [
        Text(f"Statement for a custom-made device according to {SOURCE_XIII}. It accompanies the "
             "device; the device carries no CE mark. Keep for 10 years."),
        Heading("a  Manufacturer and manufacturing sites"),
        Fields((("Manufacturer", lab.name), ("Address", lab.address),
                ("Manufacturing sites", "; ".join((lab.address, *lab.sites))))),
        Heading("b  Authorised representative"),
        Text(lab.authorised_representative or "None: the manufacturer has a place of business in "
             "the Union, to be confirmed by the manufacturer."),
        Heading("c  Device"),
        Fields((("Device", f"Removable partial denture, {case.arch}, {case.kennedy_class}"),
                ("Case", case.id), ("Frameworks", ", ".join(part.id for part in case.parts)),
                ("Material", case.alloy),
                ("Feedstock lots", ", ".join(_lots(case)) or ""),
                *_acrylic(case))),
        Heading("d  Exclusive use"),
        Text("This device is intended for exclusive use by one particular patient, identified by "
             f"the code {case.patient}."),
        Heading("e  Prescription"),
        Fields((("Made out by", case.prescriber),
                ("Authorised by national law", "to be confirmed by the manufacturer"),
                ("Health institution", case.health_institution or "not applicable"))),
        Heading("f  Specific characteristics indicated by the prescription"),
        Text(case.design or "As the approved revision of the design says."),
        Fields((("Approved revision", case.revision), ("Its hash", case.revision_hash),
                ("Approved by the prescriber", case.approved))),
        Heading("g  General safety and performance requirements"),
        Text("The device conforms to the general safety and performance requirements of Annex I. "
             "Requirements that are not fully met, with the grounds:"),
        Text(_grounds(case, cobalt)),
        Heading("h  Medicinal substances, tissues and cells"),
        Text("The device contains or incorporates no medicinal substance, no derivative of human "
             "blood or plasma, no tissues or cells of human origin, and none of animal origin."),
        Sign((f"Place and date: {case.date}", f"For the manufacturer: {lab.responsible}")),
    ]  # fmt: skip
    return _paper("statement", "Statement for a custom-made device", case, lab, blocks)


def _grounds(case: CaseRecord, cobalt: bool) -> str:
    if not cobalt:
        return "None known; to be confirmed by the manufacturer."
    return (
        "10.4: the alloy contains cobalt above 0.1 % by mass, a substance that is carcinogenic "
        "and toxic to reproduction, category 1B. Its presence is justified because no alternative "
        "gives clasps the stiffness and strength at this thickness with the same record of use; "
        "it is bound in the alloy, polished where it meets tissue, and labelled. The manufacturer "
        "confirms this justification for the patient group concerned."
    )


def authorisation(case: CaseRecord, lab: Laboratory) -> Paper:
    """A work authorisation and material disclosure as states of the USA ask for.

    Source:
        check-values I15 (common practice; state dental practice acts differ).
    """
    blocks: list[Block] = [
        Heading("Work authorisation"),
        Fields((("Date", case.received), ("Dentist", case.prescriber), ("Licence number", ""),
                ("Patient (name or code)", case.patient),
                ("Work", f"Removable partial denture framework, {case.arch}, {case.kennedy_class}"),
                ("Design", case.design), ("Material", case.alloy), ("Shade", case.shade),
                ("Tooth mould", case.tooth_mould), ("Gum shade", case.gum_shade),
                ("Wanted by", case.due))),
        Sign(("Signature of the dentist", "Date")),
        Heading("Material disclosure"),
        Fields((("Made by", f"{lab.name}, {lab.address}"),
                ("Country of manufacture", lab.country),
                ("Registration of the maker of the material", lab.registration),
                ("Main elements", ", ".join(case.alloy_elements)),
                ("May hold traces of", ", ".join(case.alloy_traces) or "none known"),
                ("Feedstock lots", ", ".join(_lots(case))))),
        Text("Retain as the law of the state asks for, usually two to four years."),
    ]  # fmt: skip
    return _paper("work-authorisation", "Work authorisation and material disclosure", case, lab,
                  blocks)  # fmt: skip


def cobalt_note(case: CaseRecord, lab: Laboratory) -> Paper:
    """That the device holds cobalt, why it may, and how it is labelled.

    Source:
        Regulation (EU) 2017/745, Annex I, 10.4.1 to 10.4.5; check-values I11 (from memory).
    """
    blocks: list[Block] = [
        Fields((("Device", f"Removable partial denture framework, {case.arch}"),
                ("Frameworks", ", ".join(part.id for part in case.parts)),
                ("Material", case.alloy), ("Elements", ", ".join(case.alloy_elements)),
                ("Feedstock lots", ", ".join(_lots(case))))),
        Notice("Contains cobalt (EC 231-158-0, CAS 7440-48-4) above 0.1 % by mass.",
                 "Carcinogenic 1B and toxic to reproduction 1B. The device and its packing are "
                 "labelled so (Annex I, 10.4.5)."),
        Heading("Justification (Annex I, 10.4.2)"),
        Text(_grounds(case, True)),
        Bullets((
            "Exposure: the alloy is passive; release of cobalt is measured by ISO 10271 and is "
            "to be confirmed for this feedstock and this finish.",
            "Alternatives looked at: commercially pure titanium and its alloys, gold alloys, "
            "high-performance polymers; the reason against each is entered by the manufacturer.",
            "Groups that need special care: children, pregnant or breast-feeding women, "
            "patients known to be allergic to cobalt, chromium or nickel.",
            "The guidance of the authorities on such substances is looked through at each review.",
        )),
        Fields((("Alternatives and reasons", ""), ("Patient asked for allergies on", ""),
                ("Reviewed on", ""))),
        Sign((f"For the manufacturer: {lab.responsible}", "Date")),
    ]  # fmt: skip
    return _paper("cobalt", "Cobalt: labelling and justification", case, lab, blocks)


def label(case: CaseRecord, lab: Laboratory, part: PartRecord) -> Paper:
    """The label of one framework: the pseudonym only, and a code to scan."""
    told = f"case={case.id};part={part.id};revision={case.revision_hash[:16]}"
    material = (
        f"{case.alloy}. Contains cobalt, CAS 7440-48-4."
        if "cobalt" in case.alloy_elements
        else case.alloy
    )
    blocks: list[Block] = [
        Fields((("Patient", case.patient), ("Case", case.id), ("Part", part.id),
                ("Arch", case.arch), ("Lot", ", ".join(part.lots)), ("Build", part.build),
                ("Date", case.date))),
        Text(material),
        Text("Custom-made device. For the exclusive use of this patient. See the leaflet."),
        Text(lab.name),
        Drawing(qr_code(told), f"QR code: {told}", kind="svg"),
    ]  # fmt: skip
    return Paper(f"label-{part.id}", "Custom-made device", case.id, lab.name, case.date,
                 tuple(blocks), CHECK_LAW, "label")  # fmt: skip


def leaflet(case: CaseRecord, lab: Laboratory) -> Paper:
    """Care and cautions for the wearer."""
    traces = f", with traces of {', '.join(case.alloy_traces)}" if case.alloy_traces else ""
    metals = f"{', '.join(case.alloy_elements)}{traces}; the base is acrylic"
    blocks: list[Block] = [
        Text("Please read this before you wear your new denture, and keep it."),
        Notice("Take it out for sleep.", "The tissues need rest, and a denture or a piece of "
                 "one can be swallowed or breathed in while you sleep."),
        Notice("Take it out before magnetic resonance imaging.", "Tell the staff before any "
                 "scan or radiation treatment of head and neck that you wear a metal denture."),
        Notice("If it breaks or a clasp comes loose, stop wearing it.", "A broken piece can be "
                 "swallowed or breathed in. Coughing, choking or pain: call emergency help at "
                 "once. Keep the pieces and go to your dentist."),
        Notice("Allergy.", f"The metal is an alloy of {metals}. Rash, burning, "
                 "swelling or blisters: take it out and tell your dentist."),
        Heading("Every day"),
        Bullets((
            "Put it in and take it out with the fingers along the way that your dentist showed "
            "you. Never bite it into place, never pull on one clasp alone.",
            "Brush it after meals over a basin of water, with soap and a soft brush, not with "
            "toothpaste, which scratches.",
            "Brush your own teeth, above all those that the clasps hold.",
            "Keep it in water while it is out. No boiling water, no bleach on the metal.",
            "Do not bend clasps, file or glue it yourself.",
        )),
        Heading("See your dentist"),
        Bullets((
            "Within a day or two if it hurts, rocks, presses or does not go in.",
            "At least once a year: the jaw changes, and bases must be relined.",
        )),
        Fields((("Your dentist", case.prescriber), ("Made by", lab.name), ("Case", case.id))),
    ]  # fmt: skip
    return _paper("leaflet", "Your removable partial denture", case, lab, blocks)


def vigilance_note(case: CaseRecord, lab: Laboratory) -> Paper:
    """A form for complaints and incidents, with what must be reported."""
    blocks: list[Block] = [
        Notice("Serious incidents are reported to the authority by law.", "Death, a serious "
                 "worsening of health, or a serious threat to public health that the device led "
                 "to or might have led to: tell the person responsible today. Terms are short; "
                 "check the local ones."),
        Fields((("Case", case.id), ("Patient (code)", case.patient),
                ("Dentist", case.prescriber), ("Parts", ", ".join(p.id for p in case.parts)),
                ("Feedstock lots", ", ".join(_lots(case))), ("Told by", ""), ("Told on", ""))),
        Heading("What happened"),
        Fields((("What was seen", ""), ("When and where", ""), ("Harm to a person", ""))),
        Boxes(("fracture", "loss of a piece: swallowed or breathed in", "allergic reaction",
               "poor fit or rocking", "wear or loss of retention", "wrong part or wrong patient",
               "something else")),
        Heading("What is done"),
        Boxes(("device and pieces kept", "other devices of the same lots looked for (recall list)",
               "authority told, if it must be", "cause found and entered as a non-conformity",
               "prescriber told of the outcome")),
        Sign(("Taken down by, date", "Person responsible, date")),
    ]  # fmt: skip
    return _paper("vigilance", "Complaint and vigilance note", case, lab, blocks)


def recall_list(
    lab: Laboratory, subject: str, rows: Sequence[tuple[str, str, str, str, str]], date: str
) -> Paper:
    """Whom to call: part, case, patient's pseudonym, prescriber, build."""
    blocks: list[Block] = [
        Text(f"All frameworks that hold powder of, or came from, {subject}: {len(rows)} in number. "
             "Call the prescribers; they alone know who the patients are."),
        Table(("Part", "Case", "Patient", "Prescriber", "Build", "Reached on"),
              tuple((*row, "") for row in rows)),
        Sign(("Ordered by, date", "Closed by, date")),
    ]  # fmt: skip
    return Paper("recall-list", "Recall list", subject, lab.name, date, tuple(blocks), CHECK_LAW)


def _acrylic(case: CaseRecord) -> tuple[tuple[str, str], ...]:
    """Lots of the base and the teeth, as far as they are entered."""
    told = (("Acrylic powder lot", "powder_lot"), ("Acrylic liquid lot", "liquid_lot"),
            ("Lot of the teeth", "tooth_lot"))  # fmt: skip
    return tuple((words, case.acrylic[key]) for words, key in told if case.acrylic.get(key))


def _lots(case: CaseRecord) -> list[str]:
    return sorted({lot for part in case.parts for lot in part.lots})


def _paper(key: str, title: str, case: CaseRecord, lab: Laboratory, blocks: list[Block]) -> Paper:
    return Paper(key, title, f"Case {case.id}", lab.name, case.date, tuple(blocks), CHECK_LAW)
