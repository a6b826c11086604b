// What this part answers: which score, part, bars, instrument, player and tempo are planned.
import { el, field, select } from '../base/dom.js';
import { fullName, instrument, latchesOf } from '../base/instruments.js';
import { on, state } from '../base/state.js';
import { bring, changeSettings, complain } from '../base/work.js';
import { Fault } from '../base/server.js';

/** @typedef {import('../base/types.d.ts').Origin} Origin */

const kinds = '.musicxml,.xml,.mxl';

/** @param {File} file @param {(origin: Origin) => void} take */
async function read(file, take) {
  const most = state.program.limits.upload_bytes;
  if (most && file.size > most) {
    complain(new Fault([`${file.name}: is larger than ${Math.floor(most / 1e6)} MB (save the part alone, or as compressed MusicXML)`], 413));
    return;
  }
  take({ name: file.name, bytes: await file.arrayBuffer() });
}

/** A score may be dropped anywhere. @param {HTMLElement} place @param {(origin: Origin) => void} take */
export function dropping(place, take) {
  place.addEventListener('dragover', (event) => {
    event.preventDefault();
    place.classList.add('dropping');
  });
  place.addEventListener('dragleave', (event) => {
    if (event.relatedTarget === null) place.classList.remove('dropping');
  });
  place.addEventListener('drop', (event) => {
    event.preventDefault();
    place.classList.remove('dropping');
    const file = event.dataTransfer?.files[0];
    if (file) void read(file, take);
  });
}

export function bringView() {
  const input = el('input', { type: 'file', accept: kinds, id: 'score-file' });
  input.addEventListener('change', () => {
    const file = input.files?.[0];
    if (file) void read(file, (origin) => void bring(origin));
    input.value = '';
  });
  const demos = el('ul', { class: 'demos' });
  const welcome = el('div', { class: 'welcome' },
    el('h1', {}, 'Which fingering on every note?'),
    el('p', { class: 'subtitle' }, 'Bring a passage as MusicXML, the exchange format of notation programs. It stays on this machine.'));
  const start = el('div', { class: 'start' },
    el('div', { class: 'drop' }, el('label', { for: 'score-file' }, 'Choose a score'), input,
      el('span', { class: 'quiet' }, 'or drop a .musicxml or .mxl file anywhere on the page')),
    el('div', { class: 'demo-list' }, el('h2', {}, 'Or try one of ours'), demos));
  on(['program'], () => {
    demos.replaceChildren(...state.program.demos.map((demo) => el('li', {},
      el('button', { type: 'button', onclick: () => void bring({ demo: demo.id }) }, demo.title),
      el('span', { class: 'quiet' }, fullName(demo.instrument.split('+')[0] ?? '', demo.instrument.split('+').slice(1))))));
  });
  const open = el('details', { class: 'another' }, el('summary', {}, 'Another score'));
  const told = el('span', { class: 'quiet' });
  const setup = el('details', { class: 'setup' }, el('summary', {}, 'What is played ', told));
  const settings = el('div', { class: 'settings' });
  setup.append(settings);
  const view = el('div', { class: 'bring' }, welcome, start);
  on(['score'], () => {
    open.open = false;
    if (!state.score || open.isConnected) return;
    welcome.remove();
    open.append(start);
    view.prepend(setup, open);
  });
  on(['score', 'settings'], () => {
    if (!state.score) return;
    told.textContent = inShort();
    const focused = settings.contains(document.activeElement) ? document.activeElement?.id : '';
    settings.replaceChildren(...fields());
    if (focused) document.getElementById(focused)?.focus();
  });
  return view;
}

/** What is played, in a line. */
function inShort() {
  const s = state.settings;
  const part = state.score?.parts.find((p) => p.id === s.part);
  return [part?.name || s.part, s.bars ? `bars ${s.bars}` : 'all bars', fullName(s.base, s.conversions),
    s.with_base && `beside it ${fullName(s.with_base, s.with_conversions)}`, s.player_name || `${s.level} hand`].filter(Boolean).join(' · ');
}

/** The fields for what is played. */
function fields() {
  const s = state.settings;
  const part = state.score?.parts.find((p) => p.id === s.part);
  if (!state.score || !part) return [];
  /** @type {HTMLElement[]} */
  const made = [
    field('Part', select(state.score.parts.map((p) => [p.id, `${p.name || p.id} (${p.notes} notes)`]), s.part,
      (value) => void changeSettings({ part: value, voice: '', staff: '', bars: '', divisi: 'refuse' }, true)))];
  if (part.staves.length > 1) made.push(field('Staff', anyOf(part.staves.map((n) => [String(n), `staff ${n}`]), s.staff, 'staff')));
  const voices = part.voices.filter((v) => !s.staff || v.staff === Number(s.staff));
  if (voices.length > 1) {
    made.push(field('Voice', anyOf(voices.map((v) => [v.voice, `voice ${v.voice}${part.staves.length > 1 ? `, staff ${v.staff}` : ''} (${v.notes} notes)`]), s.voice, 'voice')));
  }
  const bars = el('input', { type: 'text', value: s.bars, placeholder: `${part.bars[0] ?? 1}-${part.bars.at(-1) ?? ''}`, size: 8, autocomplete: 'off' });
  bars.addEventListener('change', () => void changeSettings({ bars: bars.value.trim() }, true));
  made.push(field('Bars', bars, 'all when left empty'));
  made.push(...instrumentFields('Instrument', s.base, s.conversions, false));
  made.push(...instrumentFields('Beside it', s.with_base, s.with_conversions, true));
  made.push(field('Level of the hand', select(state.program.levels.map((l) => [l, l]), s.level, (level) => void changeSettings({ level }))));
  made.push(playerField());
  made.push(field('Prefer', select([['least_awkward', 'the least awkward way'], ['smoothest', 'the fastest way']], s.objective,
    (objective) => void changeSettings({ objective }))));
  made.push(field('Where the part divides', select([['refuse', 'not planned'], ['top', 'the top notes'], ['bottom', 'the bottom notes']], s.divisi,
    (divisi) => void changeSettings({ divisi }, true)), 'divisi: several notes at once in one voice'));
  made.push(ticks('The score', [
    ['at concert pitch', s.concert, (on) => void changeSettings({ concert: on }, true)],
    ['without its repeats', s.as_written, (on) => void changeSettings({ as_written: on }, true)]]));
  const latches = latchesOf(s.base, s.conversions);
  if (latches.length > 0) {
    made.push(ticks('Latches set before playing', latches.map(({ id, name }) =>
      [name, s.latches.includes(id), (on) => void changeSettings({ latches: on ? [...s.latches, id] : s.latches.filter((l) => l !== id) })])));
  }
  return made;
}

/** Boxes to tick under one heading. @param {string} heading @param {[string, boolean, (on: boolean) => void][]} boxes */
function ticks(heading, boxes) {
  return el('fieldset', { class: 'ticks' }, el('legend', {}, heading), boxes.map(([words, on, changed]) => {
    const box = el('input', { type: 'checkbox', checked: on, id: 'tick-' + words.replace(/[^a-z]+/gi, '-') });
    box.addEventListener('change', () => changed(box.checked));
    return el('label', { for: box.id }, box, words);
  }));
}

/** @param {[string, string][]} values @param {string} chosen @param {'staff' | 'voice'} name */
const anyOf = (values, chosen, name) => select([['', 'the likeliest'], ...values], chosen,
  (value) => void changeSettings(name === 'staff' ? { staff: value, voice: '' } : { voice: value }, true));

/** @param {string} label @param {string} base @param {string[]} conversions @param {boolean} second */
function instrumentFields(label, base, conversions, second) {
  const names = second ? { base: 'with_base', conversions: 'with_conversions' } : { base: 'base', conversions: 'conversions' };
  /** @type {[string, string][]} */
  const known = state.program.instruments.map((i) => [i.id, i.name]);
  const control = select(second ? [['', 'nothing'], ...known.filter(([id]) => id === state.settings.base)] : known, base, (value) =>
    void changeSettings({ [names.base]: value, [names.conversions]: [], ...(second ? {} : { with_base: '', with_conversions: [] }) }, !second));
  /** @type {HTMLElement[]} */
  const made = [field(label, control, second ? 'the same instrument with other keywork, on one time axis' : '')];
  const there = instrument(base)?.conversions ?? [];
  if (there.length === 0) return made;
  const boxes = there.map((conversion) => {
    const box = el('input', { type: 'checkbox', checked: conversions.includes(conversion.id), id: `${names.base}-${conversion.id}` });
    box.addEventListener('change', () => {
      const chosen = there.map((c) => c.id).filter((id) => (id === conversion.id ? box.checked : conversions.includes(id)));
      void changeSettings({ [names.conversions]: chosen });
    });
    return el('label', { title: conversion.what, for: box.id }, box, conversion.name);
  });
  const count = conversions.length === 0 ? 'none' : conversions.map((id) => there.find((c) => c.id === id)?.name ?? id).join(', ');
  made.push(el('details', { class: 'conversions', open: wasOpen.has(names.base),
    ontoggle: (/** @type {Event} */ event) => remember(names.base, event) },
    el('summary', {}, el('span', { class: 'label' }, second ? 'Its converted keywork' : 'Converted keywork'), el('span', {}, count)),
    el('fieldset', {}, el('legend', { class: 'unseen' }, 'Conversions'), boxes)));
  return made;
}

/** @type {Set<string>} */
const wasOpen = new Set();

/** @param {string} name @param {Event} event */
function remember(name, event) {
  if (!(event.target instanceof HTMLDetailsElement)) return;
  if (event.target.open) wasOpen.add(name);
  else wasOpen.delete(name);
}

function playerField() {
  const input = el('input', { type: 'file', accept: '.yaml,.yml' });
  input.addEventListener('change', async () => {
    const file = input.files?.[0];
    if (file) await changeSettings({ player: await file.text(), player_name: file.name });
  });
  const named = state.settings.player_name;
  const control = field('Player file', input, named ? `${named} is used` : 'what one hand can and cannot do');
  if (named) control.append(el('button', { type: 'button', class: 'plain', onclick: () => void changeSettings({ player: '', player_name: '' }) }, 'Leave it out'));
  return control;
}
