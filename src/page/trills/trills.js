// What this part answers: every trill and tremolo of an instrument at a glance; a cell opens the pair in lanes.
import { drawing, el, field, say, select } from '../base/dom.js';
import { instrument, stacked } from '../base/instruments.js';
import { on, state } from '../base/state.js';
import { post } from '../base/server.js';

/** @typedef {import('../base/types.d.ts').Trills} Trills */

/** A verdict is a shape first: from a full disc to a cross. */
const shapes = /** @type {Record<string, {sign: string, words: string}>} */ ({
  fluent: { sign: '●', words: 'fluent' }, workable: { sign: '◐', words: 'workable' }, laborious: { sign: '○', words: 'laborious' },
  'out-of-reach': { sign: '×', words: 'out of reach' } });

let base = '';
/** @type {string[]} */
let conversions = [];
let level = 'amateur';
let round = 0;
let known = '';

export function trillsView() {
  const form = el('div', { class: 'settings' });
  const board = el('div', { class: 'board scroll', tabindex: 0, role: 'region', 'aria-label': 'Board of trills and tremolos' });
  const opened = el('section', { class: 'pair', 'aria-live': 'polite', 'aria-label': 'The pair' }, el('p', { class: 'quiet' }, 'Choose a cell to see the pair in lanes.'));
  const view = el('section', { id: 'view-trills', hidden: true, 'aria-label': 'Trills' },
    el('h1', {}, 'Trills and tremolos'), el('p', { class: 'subtitle' }, 'From the note on the left up by the interval above. The number is notes a second.'),
    form, legend(), el('div', { class: 'board-and-pair' }, board, opened));
  const refresh = () => void fill(board, opened, form);
  on(['view'], () => {
    if (state.view !== 'trills') return;
    if (!base) {
      base = state.settings.base || (state.program.instruments[0]?.id ?? '');
      conversions = state.settings.conversions;
      level = state.settings.level;
    }
    refresh();
  });
  return view;
}

function legend() {
  return el('ul', { class: 'verdicts' }, Object.values(shapes).map((s) => el('li', {}, el('span', { class: 'shape', 'aria-hidden': 'true' }, s.sign), ' ', s.words)));
}

/** @param {HTMLElement} board @param {HTMLElement} opened @param {HTMLElement} form */
async function fill(board, opened, form) {
  const again = () => void fill(board, opened, form);
  const there = instrument(base)?.conversions ?? [];
  form.replaceChildren(
    field('Instrument of the board', select(state.program.instruments.map((i) => [i.id, i.name]), base, (value) => { base = value; conversions = []; again(); })),
    field('Hand of the board', select(state.program.levels.map((l) => [l, l]), level, (value) => { level = value; again(); })),
    there.length === 0 ? '' : el('details', { class: 'conversions' },
      el('summary', {}, el('span', { class: 'label' }, 'Converted keywork'), el('span', {}, conversions.map((id) => there.find((c) => c.id === id)?.name ?? id).join(', ') || 'none')),
      el('fieldset', {}, el('legend', { class: 'unseen' }, 'Conversions'), there.map((c) => {
        const box = el('input', { type: 'checkbox', checked: conversions.includes(c.id), id: `board-${c.id}` });
        box.addEventListener('change', () => {
          conversions = there.map((x) => x.id).filter((id) => (id === c.id ? box.checked : conversions.includes(id)));
          again();
        });
        return el('label', { for: `board-${c.id}`, title: c.what }, box, c.name);
      }))));
  const key = [stacked(base, conversions), level].join(' ');
  if (key === known) return;
  const own = ++round;
  board.setAttribute('aria-busy', 'true');
  board.replaceChildren(el('p', { role: 'status' }, 'All pairs are being worked out …'));
  try {
    /** @type {Trills} */
    const trills = await post('/api/trills', { instrument: stacked(base, conversions), level, widest: 12 });
    if (own !== round) return;
    known = key;
    board.replaceChildren(table(trills, opened));
    say(`${trills.pairs.length} pairs`);
  } catch (fault) {
    if (own === round) board.replaceChildren(el('p', { role: 'alert' }, fault instanceof Error ? fault.message : String(fault)));
  }
  board.setAttribute('aria-busy', 'false');
}

const intervals = ['minor second', 'major second', 'minor third', 'major third', 'fourth', 'tritone', 'fifth', 'minor sixth', 'major sixth', 'minor seventh', 'major seventh', 'octave'];

/** @param {Trills} trills @param {HTMLElement} opened */
function table(trills, opened) {
  const of = new Map(trills.pairs.map((p) => [`${p.from} ${p.semitones}`, p]));
  const widest = Math.max(2, ...trills.pairs.map((p) => p.semitones));
  const made = el('table', { class: 'trill-board' },
    el('caption', { class: 'unseen' }, 'Rows: the lower note. Columns: the interval. Arrow keys move between cells.'),
    el('thead', {}, el('tr', {}, el('td', {}), intervals.slice(0, widest).map((name) => el('th', { scope: 'col' }, el('span', {}, name))))),
    el('tbody', {}, trills.notes.map((note) => el('tr', {}, el('th', { scope: 'row' }, note), intervals.slice(0, widest).map((_, i) => {
      const pair = of.get(`${note} ${i + 1}`);
      if (!pair) return el('td', { class: 'none' });
      const shape = shapes[pair.verdict] ?? { sign: '?', words: pair.verdict };
      const rate = pair.rate === null ? '' : pair.rate.toFixed(1);
      return el('td', {}, el('button', { type: 'button', tabindex: -1, class: `cell ${pair.verdict}`, 'aria-label': `${pair.from} to ${pair.to}: ${shape.words}${rate ? `, ${rate} notes a second` : ''}`,
        onclick: () => void open(opened, pair) }, el('span', { class: 'shape', 'aria-hidden': 'true' }, shape.sign), el('span', { 'aria-hidden': 'true' }, rate || '–')));
    })))));
  const first = made.querySelector('button');
  if (first) first.tabIndex = 0;
  made.addEventListener('keydown', (event) => move(made, event));
  return made;
}

/** One cell is in the order of the Tab key; arrows move it. @param {HTMLTableElement} made @param {KeyboardEvent} event */
function move(made, event) {
  const cell = event.target instanceof HTMLElement ? event.target.closest('td') : null;
  const by = /** @type {Record<string, [number, number]>} */ ({ ArrowUp: [-1, 0], ArrowDown: [1, 0], ArrowLeft: [0, -1], ArrowRight: [0, 1] })[event.key];
  const row = cell?.parentElement;
  if (!cell || !by || !(row instanceof HTMLTableRowElement)) return;
  event.preventDefault();
  let next = /** @type {HTMLButtonElement | null | undefined} */ (null);
  for (let r = row.rowIndex + by[0], c = cell.cellIndex + by[1]; !next; r += by[0], c += by[1]) {
    const there = made.rows[r]?.cells[c];
    if (!there) return;
    next = there.querySelector('button');
  }
  for (const other of /** @type {NodeListOf<HTMLButtonElement>} */ (made.querySelectorAll('button[tabindex="0"]'))) other.tabIndex = -1;
  next.tabIndex = 0;
  next.focus();
}

/** @param {HTMLElement} opened @param {Trills['pairs'][number]} pair */
async function open(opened, pair) {
  try {
    const trill = await post('/api/trill', { instrument: stacked(base, conversions), level, from: pair.from, to: pair.to,
      width: Math.max(300, Math.min(640, opened.clientWidth - 34)) });
    const picture = trill.svg ? drawing(trill.svg) : null;
    opened.replaceChildren(el('h2', {}, `${pair.from} to ${pair.to}`), el('p', { class: 'verdict' }, trill.words),
      picture ? el('div', { class: 'option-lanes' }, picture) : '',
      trill.from_compact ? el('dl', {}, el('dt', {}, pair.from), el('dd', {}, trill.from_compact), el('dt', {}, pair.to), el('dd', {}, trill.to_compact)) : '',
      trill.moves?.length ? el('ul', {}, trill.moves.map((/** @type {string} */ m) => el('li', {}, m))) : '');
  } catch (fault) {
    opened.replaceChildren(el('p', { role: 'alert' }, fault instanceof Error ? fault.message : String(fault)));
  }
}
