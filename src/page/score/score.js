// What this part answers: the passage in systems, engraved, with the finger lanes under the notes. Only systems near the window are
// drawn and kept.
import { drawing, el, say, settled } from '../base/dom.js';
import { on, set, state } from '../base/state.js';
import { complain, kept } from '../base/work.js';
import { placeWords } from '../base/places.js';
import { post } from '../base/server.js';
import { drawSystem, layOut, startEngraver } from './engraver.js';
import { lanesOf } from './lanes.js';
import { makeRuns } from './runs.js';
import { engravedSystems, plainSystems } from './systems.js';

/** @typedef {import('./systems.js').System} System */
/** @typedef {{first: number, last: number, anchors: [number, number][], lanes: HTMLElement}} Run */
/**
 * @typedef {object} Box
 * @property {System} system
 * @property {HTMLElement} place
 * @property {HTMLElement} music
 * @property {HTMLElement} under
 * @property {Run[]} runs
 * @property {'empty' | 'coming' | 'drawn'} is
 * @property {boolean} near the window
 */

/** A part of more notes than this is shown before it is engraved. */
const longPart = 1000;
/** Room left of the music for the fingers' names. */
const margin = 64;

/** @type {Box[]} */
let boxes = [];
/** @type {(string | null)[]} */
let elements = [];
/** @type {Map<string, number[]>} */
let notesAt = new Map();
let load = 0;
let round = 0;
let laidOutFor = '';
/** What the engraver has now; what it is given again needs no work. */
let musicxml = '';
/** The marks that stand in the drawn music, note by note. @type {(string | undefined)[]} */
let marksDrawn = [];
/** The height of a system, as the last one drawn had it: room for those that are not drawn yet. */
let usualHeight = 260;
/** The room that was last laid out for. */
let laidOutWidth = 0;
/** True while the systems are those of an earlier passage or width. */
let outdated = false;
let note = -1;

const holder = el('div', { class: 'systems', tabindex: 0, role: 'group', 'aria-label':
  'Notes. Left and right arrows step through them, Enter opens one.' });
const remark = el('p', { class: 'quiet remark', role: 'status' });

/** While paper or a file is made, all systems stay drawn. */
let keepAll = false;

/** All systems, for playing, saving and printing. */
export const systemBoxes = () => boxes;
/** The note the keys are at. */
export const noteAtHand = () => note;

const observer = new IntersectionObserver((entries) => {
  for (const entry of entries) {
    const box = boxes.find((b) => b.place === entry.target);
    if (!box) continue;
    box.near = entry.isIntersecting;
    if (box.near) void draw(box);
    else if (!keepAll) empty(box);
  }
}, { rootMargin: '900px 0px' });

/** The room there is. */
const width = () => Math.max(300, Math.floor(holder.clientWidth || 700));
const scale = () => (width() < 520 ? 32 : 40);

/** Lays the systems out again when the score, its marks or the room have changed. */
export async function layOutAgain() {
  const plan = state.plan;
  if (!plan || !state.score) return;
  const own = ++round;
  laidOutWidth = width();
  // Words of the marks change at once in the list and the lanes; in the music only when it is engraved again.
  const marks = plan.sides[state.side]?.notes.map((n) => n.mark) ?? [];
  const key = [state.score.score, state.settings.part, plan.passage.notes.length, plan.passage.notes[0]?.bar, width()].join(' ');
  if (key === laidOutFor) redrawLanes();
  // Systems of another passage must not ask for their lanes in this one.
  else observer.disconnect();
  outdated = key !== laidOutFor;
  const stale = !outdated && marks.some((mark, i) => mark !== marksDrawn[i]);
  if (stale) for (const box of boxes) markNotes(box);
  remark.textContent = state.program.engraver ? (outdated ? 'The music is being engraved …' : stale ? 'Marks that are struck out no longer hold; the new ones are being engraved …' : '') : 'The engraver is not installed (tools/setup page brings it): notes are given by their names.';
  // Engraving a long part takes seconds: until then it is given by note names.
  if (state.program.engraver && boxes.length === 0 && plan.passage.notes.length > longPart) build(plainSystems(plan, width()));
  try {
    const made = state.program.engraver ? await engraved(own) : { load: 0, systems: plainSystems(plan, width()) };
    if (own !== round || !made) return;
    marksDrawn = marks;
    const changed = made.load !== load;
    load = made.load;
    if (key !== laidOutFor || !same(made.systems)) build(made.systems);
    else if (changed) await redrawMusic(own);
    laidOutFor = key;
    remark.textContent = state.program.engraver ? '' : remark.textContent;
    tidy();
  } catch (fault) {
    if (own !== round) return;
    remark.textContent = `The music cannot be engraved: notes are given by their names. (${fault instanceof Error ? fault.message : fault})`;
    load = 0;
    elements = [];
    build(plainSystems(plan, width()));
    laidOutFor = key;
  }
}

/** @param {number} own */
async function engraved(own) {
  const plan = state.plan;
  if (!plan) return null;
  /** @type {import('../base/types.d.ts').Engraving} */
  const engraving = await kept(() => post('/api/engraving', {
    score: state.score?.score, part: state.settings.part, plan: plan.plan, side: state.side }));
  if (own !== round) return null;
  if (engraving.musicxml === musicxml && load && !outdated) return { load, systems: boxes.map((b) => b.system) };
  const ids = [...new Set(engraving.elements.filter((e) => e !== null))];
  const { load: number, pageOf } = await layOut(engraving.musicxml, width() - margin, scale(), ids);
  const pages = new Map(ids.map((id, i) => [id, pageOf[i] ?? 0]));
  musicxml = engraving.musicxml;
  elements = engraving.elements;
  notesAt = new Map();
  elements.forEach((id, i) => id && notesAt.set(id, [...(notesAt.get(id) ?? []), i]));
  return { load: number, systems: engravedSystems(elements.map((id) => (id ? (pages.get(id) ?? 0) : 0))) };
}

/** @param {System[]} systems */
const same = (systems) => systems.length === boxes.length &&
  systems.every((s, i) => boxes[i]?.system.page === s.page && JSON.stringify(boxes[i]?.system.runs) === JSON.stringify(s.runs));

/** @param {System[]} systems */
function build(systems) {
  observer.disconnect();
  outdated = false;
  const reading = boxes.find((b) => b.place.getBoundingClientRect().bottom > 0);
  const scrolled = (reading?.place.getBoundingClientRect().top ?? 0) < 0;
  boxes = systems.map((system) => {
    const music = el('div', { class: 'music' });
    const under = el('div', { class: 'under' });
    const first = state.plan?.passage.notes[system.runs[0]?.first ?? 0];
    const place = el('section', { class: 'system-box', 'aria-label': `System from bar ${first?.bar ?? ''}` }, music, under);
    place.style.minHeight = `${usualHeight}px`;
    return { system, place, music, under, runs: [], is: 'empty', near: false };
  });
  holder.replaceChildren(...boxes.map((b) => b.place));
  if (scrolled) boxOf(reading?.system.runs[0]?.first ?? 0)?.place.scrollIntoView();
  for (const box of boxes) observer.observe(box.place);
}

/** Systems are drawn one after the other, and those that were scrolled past in the meantime not at all. */
let turn = Promise.resolve();

/** @param {Box} box @returns {Promise<void>} */
export function draw(box) {
  if (box.is === 'coming') return turn;
  if (box.is !== 'empty' || outdated) return Promise.resolve();
  box.is = 'coming';
  turn = turn.then(async () => {
    if (box.near) await atLeisure();
    await drawNow(box);
  });
  return turn;
}

/** Lets the window scroll on first: what it has left by then need not be drawn. @returns {Promise<void>} */
const atLeisure = () => keepAll ? Promise.resolve() : new Promise((done) => {
  if ('requestIdleCallback' in globalThis) requestIdleCallback(() => done(), { timeout: 100 });
  else setTimeout(done, 16);
});

/** @param {Box} box */
async function drawNow(box) {
  if (outdated || (!box.near && !keepAll)) {
    box.is = 'empty';
    return;
  }
  const own = load;
  try {
    if (box.system.page && own) {
      const svg = await drawSystem(own, box.system.page);
      if (svg === null || own !== load) {
        box.is = 'empty';
        return;
      }
      showMusic(box, svg);
    }
    makeRuns(box, elements, width());
    await showLanes([box]);
    box.is = 'drawn';
    box.place.style.minHeight = '0';
    usual(box.place.offsetHeight);
  } catch (fault) {
    box.is = 'empty';
    complain(fault);
  }
}

/** Gives those not drawn yet the room of the first that was, so that the page keeps its length. @param {number} height */
function usual(height) {
  if (Math.abs(height - usualHeight) < 60) return;
  const guessed = `${usualHeight}px`;
  usualHeight = height;
  for (const box of boxes) if (box.is === 'empty' && box.place.style.minHeight === guessed) box.place.style.minHeight = `${height}px`;
}

/** @param {Box} box @param {string} svg */
function showMusic(box, svg) {
  const drawn = drawing(svg);
  drawn.classList.add('engraved');
  drawn.setAttribute('role', 'img');
  drawn.setAttribute('aria-label', 'Music, ' + (box.place.getAttribute('aria-label') ?? '').toLowerCase());
  box.music.replaceChildren(drawn);
  markNotes(box);
}

/** @param {Box[]} which */
async function showLanes(which) {
  const runs = which.flatMap((b) => b.runs);
  const pictures = await lanesOf(runs.map(({ first, last, anchors }) => ({ first, last, width: width(), anchors })));
  runs.forEach((run, i) => {
    const text = pictures[i];
    if (text) run.lanes.replaceChildren(drawing(text));
  });
  for (const box of which) markNotes(box);
}

/** @param {Box} box */
function empty(box) {
  if (box.is !== 'drawn') return;
  box.place.style.minHeight = box.place.offsetHeight + 'px';
  box.music.replaceChildren();
  box.under.replaceChildren();
  box.runs = [];
  box.is = 'empty';
}

/** Draws what is in sight and not there yet, and drops what is far away. */
function tidy() {
  for (const box of boxes) {
    if (box.near) void draw(box);
    else if (!keepAll) empty(box);
  }
}

function redrawLanes() {
  showLanes(boxes.filter((b) => b.is === 'drawn')).catch(complain);
}

/** The same systems with other marks: what is in sight is drawn again in place. @param {number} own */
async function redrawMusic(own) {
  for (const box of boxes.filter((b) => b.is !== 'empty')) {
    const svg = await drawSystem(load, box.system.page);
    if (svg === null || own !== round) return;
    const before = JSON.stringify(box.runs.map((r) => r.anchors));
    showMusic(box, svg);
    box.is = 'drawn';
    const old = box.runs;
    makeRuns(box, elements, width());
    if (JSON.stringify(box.runs.map((r) => r.anchors)) === before) {
      box.runs.forEach((run, i) => run.lanes.replaceWith((run.lanes = old[i]?.lanes ?? run.lanes)));
    } else await showLanes([box]);
  }
}

/** Signs on the notes: which one the keys are at, which are pinned. @param {Box} box */
function markNotes(box) {
  for (const marked of box.place.querySelectorAll('.at-hand, .pinned, .stale')) marked.classList.remove('at-hand', 'pinned', 'stale');
  const planned = state.plan?.sides[state.side]?.notes ?? [];
  for (const { first, last } of box.runs.length > 0 ? box.runs : box.system.runs) {
    for (let i = first; i <= last; ++i) {
      const pinned = planned[i]?.pinned;
      const id = elements[i];
      if (id && planned[i]?.mark !== marksDrawn[i]) for (const mark of box.music.querySelectorAll(`[data-startid="#${CSS.escape(id)}"]`)) mark.classList.add('stale');
      if (i !== note && !pinned) continue;
      const places = [...(id ? box.music.querySelectorAll(`[id="${CSS.escape(id)}"]`) : []), ...box.under.querySelectorAll(`[data-note="${i}"]`)];
      for (const place of places) {
        place.classList.toggle('at-hand', i === note);
        place.classList.toggle('pinned', Boolean(pinned));
      }
    }
  }
}

/** The notes played off the same printed note, in order. @param {number} index */
export const playedAt = (index) => notesAt.get(elements[index] ?? '') ?? [index];

/** The box that holds a note. @param {number} index */
export const boxOf = (index) => boxes.find((b) => b.system.runs.some((r) => r.first <= index && index <= r.last));

/** Goes to a note, and says it. @param {number} index @param {boolean} [open] @param {number} [side] */
export function goTo(index, open, side) {
  const plan = state.plan;
  const there = plan?.passage.notes[index];
  if (!plan || !there) return;
  const before = boxOf(note);
  note = index;
  const box = boxOf(index);
  for (const b of new Set([before, box])) if (b) markNotes(b);
  // First, as the note's panel takes room from what is scrolled in.
  if (open) set({ open: { side: side ?? state.side, note: index } });
  const still = matchMedia('(prefers-reduced-motion: reduce)').matches;
  box?.place.scrollIntoView({ block: 'center', behavior: still ? 'auto' : 'smooth' });
  const planned = plan.sides[state.side]?.notes[index];
  say(`${placeWords(index)}, ${there.name}${there.other ? ` trill with ${there.other}` : ''}: ${planned?.compact || 'no fingering'}, ${planned?.choices ?? 0} choices${planned && !planned.fits ? ', does not fit the tempo' : ''}`);
}

/** @param {Event} event */
function clicked(event) {
  if (!(event.target instanceof Element)) return;
  const lane = event.target.closest('[data-note]');
  if (lane) {
    goTo(Number(lane.getAttribute('data-note')), true, Number(lane.getAttribute('data-side') ?? state.side));
    return;
  }
  const drawn = event.target.closest('g.note, g.chord');
  const at = drawn ? notesAt.get(drawn.id) : undefined;
  if (at?.[0] !== undefined) goTo(at[0], true);
}

/** @param {KeyboardEvent} event */
function stepped(event) {
  const notes = state.plan?.passage.notes ?? [];
  if (event.altKey || event.ctrlKey || event.metaKey || notes.length === 0) return;
  const bar = notes[note]?.bar;
  /** @type {Record<string, () => number>} */
  const steps = {
    ArrowRight: () => note + 1, ArrowLeft: () => note - 1, Home: () => 0, End: () => notes.length - 1,
    PageDown: () => notes.findIndex((n, i) => i > note && n.bar !== bar), PageUp: () => notes.findLastIndex((n, i) => i < note && n.bar !== bar),
    Enter: () => note, ' ': () => note };
  const step = steps[event.key];
  if (!step || event.key === ' ') return;
  event.preventDefault();
  const opens = event.key === 'Enter' || state.open !== null;
  goTo(Math.min(notes.length - 1, Math.max(0, step())), opens);
}

export function scoreView() {
  holder.addEventListener('click', clicked);
  holder.addEventListener('keydown', stepped);
  on(['score'], () => {
    laidOutFor = '';
    note = -1;
    boxes = [];
    holder.replaceChildren();
  });
  on(['program'], () => state.program.engraver && startEngraver().catch(() => {}));
  // After the page has made the room that the music gets.
  on(['plan', 'side'], () => queueMicrotask(() => void layOutAgain()));
  const resized = settled(250, () => void layOutAgain());
  new ResizeObserver(() => {
    if (!keepAll && state.plan && Math.abs(width() - laidOutWidth) >= 4) resized();
  }).observe(holder);
  return el('div', { class: 'score' }, remark, holder);
}

/**
 * Draws every system at the width there is, and calls back while they are all there.
 * @template T
 * @param {() => T | Promise<T>} use
 * @returns {Promise<T>}
 */
export async function withAllDrawn(use) {
  keepAll = true;
  try {
    await layOutAgain();
    for (const box of boxes) await draw(box);
    return await use();
  } finally {
    keepAll = false;
    tidy();
  }
}
