// What this part answers: which notes stand in which system, and where; nothing here touches the page.

/** @typedef {import('../base/types.d.ts').Plan} Plan */

/**
 * A system: its page in the engraver (0 without one) and the notes it holds, as runs in playing order. A repeat makes two runs.
 * @typedef {{page: number, runs: {first: number, last: number}[]}} System
 */

/**
 * Systems of an engraved score. The runs are split where playing goes back.
 * @param {number[]} pageOf of each planned note; 0 where unknown
 * @returns {System[]}
 */
export function engravedSystems(pageOf) {
  /** @type {Map<number, System>} */
  const systems = new Map();
  let before = 0;
  pageOf.forEach((told, note) => {
    const page = told || before;
    if (!page) return;
    const system = systems.get(page) ?? { page, runs: [] };
    systems.set(page, system);
    const run = system.runs.at(-1);
    if (run && run.last === note - 1 && page === before) run.last = note;
    else system.runs.push({ first: note, last: note });
    before = page;
  });
  return [...systems.values()].sort((a, b) => a.page - b.page);
}

/**
 * Splits a run where a note stands left of the one before it.
 * @param {{first: number, last: number}} run
 * @param {(note: number) => number | undefined} place
 */
export function splitAtRepeats(run, place) {
  const runs = [];
  let first = run.first;
  let before = -Infinity;
  for (let note = run.first; note <= run.last; ++note) {
    const x = place(note);
    if (x === undefined) continue;
    if (x < before - 1) {
      runs.push({ first, last: note - 1 });
      first = note;
    }
    before = x;
  }
  runs.push({ first, last: run.last });
  return runs;
}

/** Systems without an engraver: whole bars, as many as have room. @param {Plan} plan @param {number} width @returns {System[]} */
export function plainSystems(plan, width) {
  const most = Math.max(4, Math.floor((width - 110) / 48));
  const notes = plan.passage.notes.length;
  const starts = [...new Set(plan.passage.bars.map((b) => b.first_note))].filter((n) => n >= 0 && n < notes).sort((a, b) => a - b);
  if (starts[0] !== 0) starts.unshift(0);
  /** @type {System[]} */
  const systems = [];
  let first = 0;
  for (let bar = 0; bar < starts.length; ++bar) {
    const end = starts[bar + 1] ?? notes;
    const next = starts[bar + 2] ?? notes;
    const full = end - first >= most || (bar + 1 < starts.length && next - first > most);
    if (!full && bar + 1 < starts.length) continue;
    for (; end - first > most * 1.5; first += most) systems.push({ page: 0, runs: [{ first, last: first + most - 1 }] });
    if (end > first) systems.push({ page: 0, runs: [{ first, last: end - 1 }] });
    first = end;
  }
  return systems;
}

/**
 * Where time stands on the page: moments and places that both grow. Notes at one place (an ornament's) share their anchor.
 * @param {Plan} plan @param {{first: number, last: number}} run
 * @param {(note: number) => number | undefined} place
 * @param {number} right the end of the system
 * @returns {[number, number][]}
 */
export function anchorsOf(plan, run, place, right) {
  /** @type {[number, number][]} */
  const anchors = [];
  let at = -Infinity;
  let since = -Infinity;
  for (let note = run.first; note <= run.last; ++note) {
    const x = place(note);
    const ms = plan.passage.notes[note]?.onset_ms ?? 0;
    if (x === undefined || x < at + 1 || ms < since + 0.5) continue;
    anchors.push([ms, x]);
    at = x;
    since = ms;
  }
  const last = plan.passage.notes[run.last];
  const end = last ? Math.max(last.onset_ms + last.length_ms, since + 1) : since + 1;
  anchors.push([end, Math.max(right, at + 12)]);
  return anchors;
}

/** The place of a moment between anchors. @param {[number, number][]} anchors @param {number} ms */
export function placeOf(anchors, ms) {
  for (let i = 1; i < anchors.length; ++i) {
    const [from, left] = /** @type {[number, number]} */ (anchors[i - 1]);
    const [to, right] = /** @type {[number, number]} */ (anchors[i]);
    if (ms <= to || i === anchors.length - 1) return left + ((right - left) * (ms - from)) / (to - from || 1);
  }
  return anchors[0]?.[1] ?? 0;
}
