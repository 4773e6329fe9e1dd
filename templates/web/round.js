// Keeps what is typed into the round's form on the phone until the log has acknowledged it: through
// a reload, a tab that was closed and hours without network. Without script the page works too.
(() => {
  const form = document.getElementById("round");
  if (!form) return;
  const name = "gallipot-round-" + form.dataset.job;
  const rows = [...form.querySelectorAll("[data-station]")];
  const fieldOf = (row, end) => [...row.querySelectorAll("[name]")].find((field) => field.name.endsWith("." + end));
  const endOf = (field) => field.name.slice(field.name.indexOf(".") + 1);

  let kept = {};
  try { kept = JSON.parse(localStorage.getItem(name)) || {}; } catch (error) { kept = {}; }
  const keep = () => { try { localStorage.setItem(name, JSON.stringify(kept)); } catch (error) { /* it works without */ } };

  // What a person typed into a row: pairs of a field's name and a value.
  const typed = (row) => [...row.querySelectorAll("input:not([type=hidden]), select, textarea")]
    .filter((field) => (field.type === "checkbox" || field.type === "radio" ? field.checked : field.value !== "") &&
      !(endOf(field) === "station" && field.value === row.dataset.station))
    .map((field) => [endOf(field), field.value]);

  const take = (row) => {
    const values = typed(row);
    const station = row.dataset.station;
    if (values.length === 0) delete kept[station];
    else kept[station] = { token: fieldOf(row, "token").value, at: Date.now(), values };
    keep();
  };

  const restore = (row, from) => {
    fieldOf(row, "token").value = from.token;
    for (const [end, value] of from.values)
      for (const field of row.querySelectorAll("[name]")) {
        if (endOf(field) !== end) continue;
        if (field.type !== "checkbox" && field.type !== "radio") field.value = value;
        else if (field.value === value) field.checked = true;
        const fold = field.closest("details");
        if (fold && field.value) fold.open = true;
      }
  };

  // What stands in the log is not kept any longer.
  const acknowledged = new Set([...document.querySelectorAll("[data-ack]")].map((one) => one.dataset.ack));
  for (const [station, one] of Object.entries(kept)) if (acknowledged.has(one.token)) delete kept[station];
  for (const row of rows) {
    const one = kept[row.dataset.station];
    if (row.dataset.returned) take(row);
    else if (one) restore(row, one);
  }
  keep();

  // Typed for a station that is no stop any more: sent along, so that the log says what came of it.
  const here = new Set(rows.map((row) => row.dataset.station));
  let next = document.querySelectorAll(".stop").length;
  const orphans = [];
  for (const [station, one] of Object.entries(kept)) {
    if (here.has(station)) continue;
    const prefix = "r" + ++next + ".";
    const add = (end, value) => {
      const field = document.createElement("input");
      field.type = "hidden"; field.name = prefix + end; field.value = value;
      form.append(field);
      return field;
    };
    add("id", station); add("token", one.token);
    for (const [end, value] of one.values) add(end, value);
    orphans.push([add("time", ""), one]);
  }

  const progress = document.getElementById("progress");
  const count = () => {
    if (!progress) return;
    const done = rows.filter((row) => typed(row).length > 0).length;
    progress.textContent = form.dataset.progress.replace("{done}", done).replace("{count}", rows.length) +
      (done > 0 || orphans.length > 0 ? " · " + form.dataset.kept : "");
  };
  count();

  form.addEventListener("input", (event) => {
    const row = event.target.closest("[data-station]");
    if (row) take(row);
    count();
  });

  // When a row was typed, by the clock where the job is; of one just typed the log knows it.
  const timeOf = (at) => {
    if (Date.now() - at < 120000) return "";
    try {
      const zone = form.dataset.zone || undefined;
      const parts = new Intl.DateTimeFormat("en-GB", { timeZone: zone, year: "numeric", month: "2-digit",
        day: "2-digit", hour: "2-digit", minute: "2-digit", hourCycle: "h23" }).formatToParts(new Date(at));
      const part = (type) => parts.find((one) => one.type === type).value;
      return `${part("year")}-${part("month")}-${part("day")}T${part("hour")}:${part("minute")}`;
    } catch (error) { return ""; }
  };
  form.addEventListener("submit", () => {
    for (const row of rows) {
      const one = kept[row.dataset.station];
      const time = fieldOf(row, "time");
      if (one && time && !time.value) time.value = timeOf(one.at);
    }
    for (const [time, one] of orphans) time.value = timeOf(one.at);
  });
})();
