// The answer: plain text that the reader copies back to the laboratory. Nothing is sent.

function answers(page) {
  const { facts } = page;
  const out = byId("answer-text");
  const listed = byId("marks");
  page.listMarks = () => {
    listed.replaceChildren();
    page.marks.forEach((mark, i) => {
      const go = element("button", { type: "button", textContent: `Mark ${i + 1}: near ${mark.near}` });
      go.addEventListener("click", () => goTo(page, mark.at, `Mark ${i + 1}, near ${mark.near}`));
      const drop = element("button", { type: "button", textContent: `Remove mark ${i + 1}` });
      drop.addEventListener("click", () => {
        page.marks.splice(i, 1);
        page.listMarks();
        page.scene.redraw();
      });
      listed.append(element("li", { className: "row" }, go, drop));
    });
  };
  byId("approve").addEventListener("click", () => { out.value = answerText(page, true); out.focus(); });
  byId("change").addEventListener("click", () => {
    const wish = byId("wish");
    if (!wish.value.trim() && !page.marks.length) {
      byId("copied").textContent = "Write what should change, or mark a place in the 3D view.";
      wish.focus();
      return;
    }
    out.value = answerText(page, false);
    out.focus();
  });
  byId("copy").addEventListener("click", () => copy(out));
  byId("approve").disabled = facts.stops > 0;
}

function answerText(page, approved) {
  const { facts } = page;
  const name = byId("name").value.trim();
  const wish = byId("wish").value.trim();
  const lines = [
    `Case ${facts.id}: ${approved ? "the design is approved for making" : "a change is asked for"}.`,
    ...facts.framework.map(([file, hash]) => `Refers to ${file}, SHA-256 ${hash}.`),
    `Findings on the page: ${facts.counts}.`,
  ];
  if (approved && facts.looks_left) lines.push("The findings that ask for judgement have been read and are accepted.");
  if (wish) lines.push(`${approved ? "Remark" : "Change"}: ${wish}`);
  page.marks.forEach((mark, i) => {
    const at = facts.to_scan.map((row) => apply([...row.slice(0, 3), 0, 0, 0, 0, 0, 0], mark.at)[0] + row[3]);
    const place = at.map((x) => x.toFixed(2)).join(", ");
    lines.push(`Mark ${i + 1}: near ${mark.near}, at (${place}) mm in the frame of the scan.`);
  });
  lines.push(`Name: ${name || "(please fill in)"}`, `Date: ${new Date().toISOString().slice(0, 10)}`);
  return lines.join("\n");
}

async function copy(out) {
  const said = byId("copied");
  if (!out.value) {
    said.textContent = "Nothing to copy yet: choose an answer first.";
    return;
  }
  out.select();
  try {
    await navigator.clipboard.writeText(out.value);
    said.textContent = "Copied. Paste it into a message to the laboratory.";
  } catch {
    said.textContent = document.execCommand("copy")
      ? "Copied. Paste it into a message to the laboratory."
      : "The text is selected: copy it with your device's own copy command.";
  }
}

startPage();
