// What this part answers: bringing a score, planning it, and asking about the plan; what the server has dropped is brought again.
import { Fault, get, post, upload } from './server.js';
import { latchesOf, stacked } from './instruments.js';
import { forgetChoices, noSettings, set, state } from './state.js';
import { say } from './dom.js';

/** @typedef {import('./types.d.ts').Origin} Origin */

export async function learnProgram() {
  set({ program: await get('/api/program') });
}

/** @param {Origin} origin @returns {Promise<import('./types.d.ts').Score>} */
function bringAgain(origin) {
  if ('demo' in origin) return post('/api/demo', { demo: origin.demo });
  if ('token' in origin) return post('/api/score', { score: origin.token });
  return upload(origin.name, origin.bytes);
}

/** The score that `fingerway serve SCORE` opens the page with, if it does. */
export async function bringAsked() {
  const token = new URLSearchParams(location.search).get('score');
  if (token) await bring({ token });
}

/** Shows the sentences of a fault. @param {unknown} fault */
export function complain(fault) {
  if (fault instanceof DOMException && fault.name === 'AbortError') return;
  if (!(fault instanceof Fault)) console.error(fault);
  set({ fault: fault instanceof Fault ? fault.sentences : [String(fault)], busy: false });
}

/** @param {Origin} origin */
export async function bring(origin) {
  set({ busy: true, fault: [] });
  try {
    const score = await bringAgain(origin);
    // Another score than the one the page was opened with: the address must not bring the old one back.
    if (!('token' in origin)) history.replaceState(null, '', location.pathname + location.hash);
    const part = likeliest(score.parts);
    if (!part) throw new Fault([`${score.name}: there is no part with notes`], 400);
    const wanted = 'demo' in origin ? state.program.demos.find((d) => d.id === origin.demo)?.instrument : undefined;
    const [base = '', ...conversions] = (wanted ?? part.instruments[0] ?? state.program.instruments[0]?.id ?? '').split('+');
    const level = state.settings.level;
    forgetChoices();
    set({ score, origin, plan: null, open: null, loop: null, side: 0,
      settings: { ...noSettings(), level, part: part.id, base, conversions } });
    await replan();
  } catch (fault) {
    complain(fault);
  }
}

/** The first part that one of the instruments plays. @param {import('./types.d.ts').Part[]} parts */
const likeliest = (parts) => parts.find((p) => p.notes > 0 && p.instruments.length > 0) ?? parts.find((p) => p.notes > 0);

/**
 * @param {Partial<import('./types.d.ts').Settings>} changes
 * @param {boolean} [emptied] with other bars or another instrument, what was chosen before does not hold
 */
export function changeSettings(changes, emptied) {
  set({ settings: { ...state.settings, ...changes } });
  if (emptied) {
    forgetChoices();
    set({ open: null, loop: null });
  }
  return replan();
}

function request() {
  const s = state.settings;
  /** @type {Record<string, unknown>} */
  const body = { score: state.score?.score, part: s.part, instrument: stacked(s.base, s.conversions), level: s.level,
    objective: s.objective, choices: state.choices[0] };
  if (s.with_base) {
    body.with = stacked(s.with_base, s.with_conversions);
    body.sides = [state.choices[1]];
  }
  for (const name of /** @type {const} */ (['voice', 'bars', 'player'])) if (s[name]) body[name] = s[name];
  if (s.staff) body.staff = Number(s.staff);
  for (const name of /** @type {const} */ (['as_written', 'concert'])) if (s[name]) body[name] = true;
  if (s.divisi !== 'refuse') body.divisi = s.divisi;
  const there = latchesOf(s.base, s.conversions);
  const latches = s.latches.filter((id) => there.some((l) => l.id === id));
  if (latches.length > 0) body.latches = latches;
  if (s.tempo) body.tempo = s.tempo;
  return body;
}

/** @type {AbortController | undefined} */
let running;

/** Plans again with all that is set. A later request takes the place of an earlier one. */
export async function replan() {
  if (!state.score) return;
  running?.abort();
  const own = (running = new AbortController());
  set({ busy: true });
  // What is changed in one go is asked for once.
  await Promise.resolve();
  if (own !== running) return;
  try {
    const plan = await kept(() => post('/api/plan', request(), own.signal));
    if (own !== running) return;
    const side = Math.min(state.side, plan.sides.length - 1);
    const open = state.open && state.open.note < plan.passage.notes.length && state.open.side < plan.sides.length ? state.open : null;
    set({ plan, side, open, busy: false, fault: [] });
    say(plan.sides.map((/** @type {import('./types.d.ts').Side} */ s) => `${s.fits ? 'Fits the tempo' : 'Does not fit the tempo'}`).join('; '));
  } catch (fault) {
    if (own === running) complain(fault);
  }
}

/**
 * Asks, and once more with the score brought again when the server no longer keeps it.
 * @template T
 * @param {() => Promise<T>} call
 * @returns {Promise<T>}
 */
export async function kept(call) {
  try {
    return await call();
  } catch (fault) {
    if (!(fault instanceof Fault && fault.gone) || !state.origin) throw fault;
    const score = await bringAgain(state.origin);
    set({ score });
    return call();
  }
}

/**
 * Asks about the plan. Plans again first when the server has dropped it.
 * @param {string} path
 * @param {Record<string, unknown>} body
 * @param {AbortSignal} [signal]
 * @returns {Promise<any>}
 */
export async function ofPlan(path, body, signal) {
  const ask = () => post(path, { plan: state.plan?.plan, ...body }, signal);
  try {
    return await ask();
  } catch (fault) {
    if (!(fault instanceof Fault && fault.gone)) throw fault;
    await replan();
    return ask();
  }
}
