// A dropped job file becomes a bench sheet.
import { byId, listFaults } from "./dom.js";
import { jobSheet } from "./library.js";

const most = 1 << 20;

export function prepare() {
  const drop = byId("drop");
  const over = (is) => (event) => { event.preventDefault(); drop.classList.toggle("over", is); };
  document.addEventListener("dragover", over(true));
  document.addEventListener("dragleave", over(false));
  document.addEventListener("drop", (event) => {
    over(false)(event);
    const file = event.dataTransfer?.files[0];
    if (file) take(file);
  });
  byId("file").addEventListener("change", () => { if (byId("file").files[0]) take(byId("file").files[0]); });
}

async function take(file) {
  const status = byId("jobstatus"), sheet = byId("sheet"), faults = byId("jobfaults");
  sheet.hidden = true;
  status.textContent = `Reading ${file.name}…`;
  byId("job").scrollIntoView();
  try {
    if (file.size > most) throw new Error(`${file.name}: ${file.size} bytes; a job file has at most ${most}`);
    const out = await jobSheet(file.name, await file.text());
    listFaults(faults, out.Faults);
    if (out.Faults.length > 0) faults.querySelector("strong").textContent = `No sheet: what is wrong in ${file.name}`;
    status.textContent = out.Faults.length > 0 ? "" : `The sheet of ${file.name}:`;
    sheet.textContent = out.Sheet;
    sheet.hidden = out.Faults.length > 0;
  } catch (error) {
    listFaults(faults, [error.message]);
    faults.querySelector("strong").textContent = "No sheet:";
    status.textContent = "";
  }
}
