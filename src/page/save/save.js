// What this part answers: files saved from the plan, choices read back, and the printed sheet.
import { el, say } from '../base/dom.js';
import { choose, state } from '../base/state.js';
import { complain, ofPlan } from '../base/work.js';
import { file } from '../base/server.js';
import { engravedSystemsForSaving } from './systems.js';
import { printed } from './print.js';

const kinds = /** @type {[string, string, string][]} */ ([
  ['musicxml', 'Score with marks', 'MusicXML, where a choice matters'],
  ['musicxml-all', 'Score with all marks', 'MusicXML, on every note'],
  ['choices', 'Your choices', 'pins, bans and holds, to be read back'],
  ['page', 'Page by itself', 'one HTML file with music and lanes, for anywhere'],
  ['json', 'Plan for scripts', 'JSON'],
  ['csv', 'Table', 'CSV, a row a note']]);

export function saveView() {
  const menu = el('details', { class: 'save' }, el('summary', {}, 'Save and print'));
  const read = el('input', { type: 'file', accept: '.yaml,.yml', id: 'read-choices' });
  read.addEventListener('change', () => {
    const chosen = read.files?.[0];
    if (chosen) void readChoices(chosen);
    read.value = '';
    menu.open = false;
  });
  menu.append(el('div', { class: 'menu' },
    el('ul', {}, kinds.map(([kind, name, what]) => el('li', {},
      el('button', { type: 'button', 'data-save': kind, onclick: () => void save(kind, menu) }, name), el('span', { class: 'quiet' }, what)))),
    el('p', {}, el('label', { for: 'read-choices' }, 'Read choices back'), read),
    el('p', { class: 'steps' }, el('button', { type: 'button', 'data-print': 'A4', onclick: () => void printed('A4') }, 'Print on A4'),
      el('button', { type: 'button', 'data-print': 'letter', onclick: () => void printed('letter') }, 'Print on Letter'))));
  menu.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape') return;
    menu.open = false;
    menu.querySelector('summary')?.focus();
    event.stopPropagation();
  });
  document.addEventListener('click', (event) => {
    if (event.target instanceof Node && !menu.contains(event.target)) menu.open = false;
  });
  return menu;
}

/** @param {string} kind @param {HTMLDetailsElement} menu */
async function save(kind, menu) {
  if (!state.plan) return;
  try {
    say('The file is being made');
    /** @type {Record<string, unknown>} */
    const body = { plan: state.plan.plan, side: state.side, kind: kind === 'musicxml-all' ? 'musicxml' : kind };
    if (kind.startsWith('musicxml')) body.mark = kind === 'musicxml-all' ? 'all' : 'choices';
    if (kind === 'page') body.systems = await engravedSystemsForSaving();
    const { name, blob } = await file('/api/save', body);
    const address = URL.createObjectURL(blob);
    const link = el('a', { href: address, download: name ?? 'fingerway' });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(address), 10000);
    menu.open = false;
    menu.querySelector('summary')?.focus();
  } catch (fault) {
    complain(fault);
  }
}

/** @param {File} chosen */
async function readChoices(chosen) {
  try {
    const { choices } = await ofPlan('/api/choices/read', { side: state.side, text: await chosen.text() });
    choose(state.side, choices);
    say('The choices are read');
  } catch (fault) {
    complain(fault);
  }
}
