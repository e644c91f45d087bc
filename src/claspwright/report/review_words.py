"""The text of the review page: everything that it shows, readable without the 3D."""

from __future__ import annotations

import base64
import io
from html import escape

from PIL import Image

from claspwright.report.cautions import CAUTIONS
from claspwright.report.content import SEVERITIES, SEVERITY_WORDS, Picture, ReportContent
from claspwright.report.gather import Gathered, gathered
from claspwright.report.words import compared, figure, jaw_words, room_cells

_SIGNS = {"stop": "■", "look": "▲", "note": "●"}


def sections(content: ReportContent) -> dict[str, str]:
    """The page's named pieces of HTML; every word from outside is escaped."""
    facts = content.facts
    return {
        "id": escape(facts.id),
        "jaw": jaw_words(facts.jaw),
        "kennedy": escape(facts.kennedy),
        "identity": _identity(content),
        "findings": _findings(content),
        "design": _design(content),
        "answer": _answer(content),
        "measures": _measures(content),
        "bodies": _bodies(content),
        "rooms": _rooms(content),
        "places": _places(content),
        "pictures": _pictures(content),
        "cautions": "\n".join(
            f"<p><strong>{escape(c.heading)}.</strong> {escape(c.text)}</p>" for c in CAUTIONS
        ),
        "files": _files(content),
        "version": escape(facts.version),
    }


def _identity(content: ReportContent) -> str:
    facts = content.facts
    pairs = (
        ("patient", facts.patient), ("prescriber", facts.prescriber),
        ("laboratory", facts.laboratory), ("prescribed", facts.prescribed), ("due", facts.due),
        ("alloy", facts.alloy),
    )  # fmt: skip
    return "".join(
        f"<div><dt>{name}</dt><dd>{escape(value)}</dd></div>" for name, value in pairs if value
    )


def _findings(content: ReportContent) -> str:
    out = []
    for severity in SEVERITIES:
        found = content.of(severity)
        head = f"{_SIGNS[severity]} {len(found)} {severity}: {SEVERITY_WORDS[severity]}"
        cards = [_finding(one) for one in gathered(found)] or ['<p class="small">None.</p>']
        if severity == "note" and found:
            out.append(f"<details><summary><h3>{head}</h3></summary>{''.join(cards)}</details>")
        else:
            out += [f"<h3>{head}</h3>", *cards]
    return "\n".join(out)


def _finding(one: Gathered) -> str:
    finding = one.first
    pair = compared(finding.measured, finding.limit, finding.unit)
    figures = [f"{name} {text}" for name, text in zip(("measured", "limit"), pair, strict=True)
               if text]  # fmt: skip
    numbers = f"<p>{escape(', '.join(figures))}</p>" if figures else ""
    go = (
        "" if finding.at_mm is None else f"<p>{_button(finding.at_mm, finding.text, 'Show it')}</p>"
    )
    where = f", {escape(finding.component)}" if finding.component else ""
    return (
        f'<div class="finding {finding.severity}"><p class="word">'
        f"{_SIGNS[finding.severity]} {finding.severity}</p>"
        f"<p>{escape(finding.text)}</p>{numbers}"
        f'<p class="source small">{escape(finding.rule)}{where}. '
        f"Source: {escape(finding.source)}</p>{go}{_likewise(one)}</div>"
    )


def _likewise(one: Gathered) -> str:
    """The other places of which the same is said, as buttons where they have a place."""
    if not one.others:
        return ""
    items = []
    for other in one.others:
        name = other.component or "elsewhere"
        known = "" if other.measured is None else f" ({figure(other.measured, other.unit)})"
        at = other.at_mm
        shown = escape(name) if at is None else _button(at, other.text, name)
        items.append(f"<li>{shown}{escape(known)}</li>")
    return f'<p class="small">Likewise:</p><ul class="places small">{"".join(items)}</ul>'


def _button(at: tuple[float, float, float], words: str, text: str) -> str:
    place = "[" + ",".join(f"{x:.2f}" for x in at) + "]"
    more = "" if text == words else f'<span class="unseen">: {escape(words)}</span>'
    return (
        f'<button type="button" data-at="{place}" data-words="{escape(words)}">'
        f"{escape(text)}{more}</button>"
    )


def _design(content: ReportContent) -> str:
    facts = content.facts
    lines = [f"Missing teeth: {', '.join(map(str, facts.missing)) or 'none'}."]
    if facts.not_replaced:
        lines.append(f"Not replaced: {', '.join(map(str, facts.not_replaced))}.")
    lines += [*facts.prescription, content.path_words, *content.design_words]
    return "<ul>" + "".join(f"<li>{escape(line)}</li>" for line in lines if line) + "</ul>"


def _answer(content: ReportContent) -> str:
    stops = len(content.of("stop"))
    held = (
        f'<p class="stop"><span class="word">{_SIGNS["stop"]} {stops} stop.</span> The design '
        "cannot be approved while a stop stands; ask for a change, or clear it in your answer.</p>"
        if stops
        else ""
    )
    return f"""{held}
<label for="name">Name</label><input type="text" id="name" autocomplete="name">
<label for="wish">What should change, or a remark</label><textarea id="wish" rows="3"></textarea>
<ul id="marks" aria-label="Marked places"></ul>
<div class="row"><button type="button" id="approve">Approve the design</button>
<button type="button" id="change">Ask for a change</button></div>
<label for="answer-text">Text for the laboratory</label>
<textarea id="answer-text" rows="7" readonly></textarea>
<div class="row"><button type="button" id="copy">Copy the text</button>
<span id="copied" role="status" class="small"></span></div>
<p class="small">Approval here records your judgement of the design. It does not replace the
check of the framework on the model and in the mouth.</p>"""


def _measures(content: ReportContent) -> str:
    rows = [
        f'<tr><td>{escape(m.name)}</td><td class="number">{escape(figure(m.value, m.unit))}</td>'
        f'<td class="source">{escape(m.source)}</td></tr>'
        for m in content.measures
    ]
    rows += [
        f'<tr><td>{escape(row.words)}: {escape(m.name)}</td><td class="number">'
        f'{escape(figure(m.value, m.unit))}</td><td class="source">{escape(m.source)}</td></tr>'
        for row in content.components
        for m in row.measures
    ]
    head = "<tr><th>quantity</th><th>value</th><th>from</th></tr>"
    return f"<table>{head}{''.join(rows)}</table>" if rows else '<p class="small">None.</p>'


def _bodies(content: ReportContent) -> str:
    rows = "".join(
        f"<tr><td>{escape(row.kind)}</td><td>{_button(row.at, row.name, row.words)}</td>"
        f'<td class="number">{escape(figure(row.volume_mm3, "mm3"))}</td></tr>'
        for row in content.bodies
    )
    head = "<tr><th>kind</th><th>where</th><th>volume</th></tr>"
    return f"<table>{head}{rows}</table>" if rows else '<p class="small">None.</p>'


def _rooms(content: ReportContent) -> str:
    rows = ""
    for row in content.rooms:
        words, *figures = room_cells(row)
        cells = "".join(f'<td class="number">{escape(text)}</td>' for text in figures)
        rows += f"<tr><td>{_button(row.at, words, words)}</td>{cells}</tr>"
    if not rows:
        return '<p class="small">No opposing arch is known.</p>'
    head = "<tr><th>place</th><th>in closing</th><th>along the path</th><th>wanted</th></tr>"
    return f'<p class="small">{escape(content.rooms_words)}</p><table>{head}{rows}</table>'


def _places(content: ReportContent) -> str:
    items = "".join(
        f"<li>{_button((float(at[0]), float(at[1]), float(at[2])), words, words)}</li>"
        for _, words, at in content.places
    )
    return f'<ul class="places">{items}</ul>' if items else '<p class="small">None.</p>'


def _pictures(content: ReportContent) -> str:
    shown = [p for p in content.pictures if p.group == "on the model"]
    if not shown:
        return ""
    figures = "".join(
        f'<figure><img alt="{escape(p.alt)}" src="data:image/jpeg;base64,{_jpeg(p)}">'
        f'<figcaption class="small">{escape(p.caption)}</figcaption></figure>'
        for p in shown
    )
    return (
        '<section aria-labelledby="pictures-title"><h2 id="pictures-title">Pictures</h2>'
        f'<div class="pictures">{figures}</div></section>'
    )


def _jpeg(picture: Picture) -> str:
    image = Image.open(io.BytesIO(picture.png)).convert("RGB")
    out = io.BytesIO()
    image.save(out, format="JPEG", quality=85)
    return base64.b64encode(out.getvalue()).decode("ascii")


def _files(content: ReportContent) -> str:
    rows = "".join(
        f"<tr><td>{word}</td><td>{escape(name)}</td><td><code>{escape(value)}</code></td></tr>"
        for word, pairs in (
            ("read", content.facts.input_hashes),
            ("written", content.facts.output_hashes),
        )
        for name, value in pairs
    )
    head = "<tr><th></th><th>file</th><th>SHA-256</th></tr>"
    return f"<table>{head}{rows}</table>" if rows else '<p class="small">None listed.</p>'
