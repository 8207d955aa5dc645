// Shows what the bench tells and passes on what people ask for. No state of the bench is kept here.
"use strict";

const at = (id) => document.getElementById(id);
const scan = at("text");

// The bench says something at least every twelve seconds. A screen that slept, or whose line broke without a sign, asks anew.
const SILENCE_MS = 30000;
let events;
let heard;

async function order(what, fields) {
  try {
    const answer = await fetch("/do/" + what, { method: "POST", body: new URLSearchParams(fields) });
    if (!answer.ok) {
      line(false, await answer.text());
    }
  } catch (gone) {
    away();
  }
}

function line(answers, words) {
  const jig = at("jig");
  jig.className = answers ? "answers" : "away";
  jig.textContent = words;
}

function away() {
  line(false, "The station's program does not answer. What stands below may be old; start it again.");
  document.body.classList.add("old");
}

function listen() {
  heard = Date.now();
  if (events) {
    events.close();
  }
  events = new EventSource("/events");
  events.addEventListener("bench", (event) => {
    heard = Date.now();
    show(JSON.parse(event.data));
  });
  events.addEventListener("beat", () => { heard = Date.now(); });
  events.addEventListener("error", away);
}

function listenAnewAfterSilence() {
  if (Math.abs(Date.now() - heard) > SILENCE_MS) {
    line(false, "This screen slept or lost the bench. What stood here is taken off; the bench is asked anew.");
    at("card").replaceChildren();
    at("said").textContent = "";
    document.body.className = "";
    listen();
  }
}

function options(select, values, chosen, first) {
  const wanted = [first, ...values].filter((value) => value !== null);
  if (select.options.length !== wanted.length) {
    select.replaceChildren(...wanted.map((value) => new Option(value, value)));
  }
  select.value = chosen;
}

function show(bench) {
  document.body.classList.remove("old");
  document.body.dataset.phase = bench.phase;
  document.body.className = bench.tone;
  const held = document.activeElement && document.activeElement.dataset;
  const open = document.querySelector("#card details[open]") !== null;
  at("card").innerHTML = bench.card;
  if (at("said").textContent !== bench.said) {
    at("said").textContent = bench.said;
  }
  at("today").innerHTML = bench.today;
  line(bench.jig_answers, bench.jig);
  options(at("job"), bench.jobs, bench.job, "");
  if (document.activeElement !== at("operator")) {
    at("operator").value = bench.operator;
  }
  if (bench.virtual_boxes) {
    at("virtual").hidden = false;
    options(at("virtual-box"), bench.virtual_boxes, bench.virtual_box, null);
  }
  at("stop").disabled = bench.phase !== "measuring";
  const tests = document.querySelector("#card details");
  if (open && tests) {
    tests.open = true;
  }
  if (held && held.do) {
    const same = [...document.querySelectorAll("#card button")].find((button) =>
      Object.entries(held).every(([key, value]) => button.dataset[key] === value));
    (same || scan).focus();
  }
}

at("scan").addEventListener("submit", (event) => {
  event.preventDefault();
  order("scan", { text: scan.value });
  scan.value = "";
  scan.focus();
});
at("who").addEventListener("submit", (event) => {
  event.preventDefault();
  scan.focus();
});
at("stop").addEventListener("click", () => order("stop", {}));
at("job").addEventListener("change", (event) => {
  order("scan", { text: event.target.value });
  scan.focus();
});
at("operator").addEventListener("change", (event) => order("operator", { name: event.target.value }));
at("virtual-box").addEventListener("change", (event) => order("virtual-box", { name: event.target.value }));
at("card").addEventListener("click", (event) => {
  const button = event.target.closest("[data-do]");
  if (button) {
    const { do: what, ...fields } = button.dataset;
    order(what, fields);
    if (what === "scan") {
      scan.focus();
    }
  }
});
document.addEventListener("keydown", (event) => {
  const typing = /^(INPUT|SELECT|TEXTAREA)$/.test(event.target.tagName);
  if (event.key === "PageDown" || event.key === "PageUp") {
    const card = at("card");
    card.scrollBy(0, (event.key === "PageDown" ? 0.8 : -0.8) * card.clientHeight);
    event.preventDefault();
  } else if (event.key === "Escape") {
    order("stop", {});
    scan.focus();
  } else if (!typing && event.key.length === 1 && event.key !== " " && !event.ctrlKey && !event.metaKey && !event.altKey) {
    scan.focus(); // A scanner types wherever the focus happens to be.
  }
});

listen();
setInterval(listenAnewAfterSilence, 1000);
document.addEventListener("visibilitychange", listenAnewAfterSilence);
