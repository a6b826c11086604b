// What this part answers: what the page knows, who is told of changes, and which choices can be undone.

/** @typedef {import('./types.d.ts').State} State */
/** @typedef {import('./types.d.ts').Choices} Choices */
/** @typedef {import('./types.d.ts').Snapshot} Snapshot */

/** @returns {Choices} */
export const noChoices = () => ({ pins: [], bans: [], holds: [] });

/** @returns {import('./types.d.ts').Settings} */
export const noSettings = () => ({
  part: '', voice: '', staff: '', bars: '', divisi: 'refuse', as_written: false, concert: false, latches: [], base: '', conversions: [], with_base: '', with_conversions: [],
  level: 'amateur', player: '', player_name: '', tempo: null, objective: 'least_awkward' });

/** @type {State} */
export const state = {
  program: { version: '', levels: [], instruments: [], demos: [], engraver: false, guide: false, repertoire: false, roster: false, cautions: [],
    limits: { upload_bytes: 0 } },
  view: 'passage', score: null, origin: null, settings: noSettings(), choices: [noChoices(), noChoices()], plan: null, side: 0,
  open: null, busy: false, fault: [], loop: null, done: 0, undone: 0 };

/** @type {Map<string, Set<() => void>>} */
const listeners = new Map();

/** Calls back when one of the topics changes. @param {string[]} topics @param {() => void} call */
export function on(topics, call) {
  for (const topic of topics) {
    if (!listeners.has(topic)) listeners.set(topic, new Set());
    listeners.get(topic)?.add(call);
  }
}

/** Sets and tells. The topics are the names of what is set. @param {Partial<State>} changes */
export function set(changes) {
  Object.assign(state, changes);
  /** @type {Set<() => void>} */
  const calls = new Set();
  for (const topic of Object.keys(changes)) for (const call of listeners.get(topic) ?? []) calls.add(call);
  for (const call of calls) call();
}

/** @type {Snapshot[]} */
let past = [];
/** @type {Snapshot[]} */
let future = [];

/** @returns {Snapshot} */
const now = () => ({ sides: structuredClone(state.choices) });

/** New choices for one side; the old ones can be had back. @param {number} side @param {Choices} choices */
export function choose(side, choices) {
  past.push(now());
  future = [];
  const both = structuredClone(state.choices);
  both[side] = choices;
  tell(both);
}

/** @param {[Choices, Choices]} both */
function tell(both) {
  set({ choices: both, done: past.length, undone: future.length });
}

export function undo() {
  const last = past.pop();
  if (!last) return;
  future.push(now());
  tell(last.sides);
}

export function redo() {
  const next = future.pop();
  if (!next) return;
  past.push(now());
  tell(next.sides);
}

/** Choices belong to one passage: another one starts without any. */
export function forgetChoices() {
  past = [];
  future = [];
  tell([noChoices(), noChoices()]);
}
