// What this part answers: a class: its pupils, and each one's sheet.
import { drawing, el, words } from '../base/dom.js';
import { on, state } from '../base/state.js';
import { complain } from '../base/work.js';
import { get, post } from '../base/server.js';

/** @type {ReturnType<typeof setTimeout> | undefined} */
let again;

export function classView() {
  const inside = el('div', {});
  const view = el('section', { id: 'view-class', hidden: true, 'aria-label': 'Class' }, el('h1', {}, 'Class'), inside);
  on(['view', 'program'], () => {
    clearTimeout(again);
    if (state.view === 'class' && state.program.roster) void fill(inside);
  });
  return view;
}

/** @param {HTMLElement} inside */
async function fill(inside) {
  try {
    const answer = await get('/api/roster');
    if (answer.state === 'working') {
      const share = Math.round((answer.share ?? 0) * 100);
      inside.replaceChildren(el('p', {}, el('label', { for: 'class-share' }, 'The sheets are being worked out: '), el('progress', { id: 'class-share', max: 100, value: share }), ` ${share} %`));
      again = setTimeout(() => void fill(inside), 1000);
      return;
    }
    const sheet = el('section', { class: 'sheet', 'aria-live': 'polite', tabindex: -1 });
    inside.replaceChildren(el('p', { class: 'subtitle' }, answer.title ?? ''),
      el('ul', { class: 'pupils' }, (answer.pupils ?? []).map((/** @type {any} */ p) => el('li', {},
        el('button', { type: 'button', onclick: () => void open(sheet, p.name) }, p.name), el('span', { class: 'quiet' }, p.instrument_name ?? p.instrument),
        el('ul', {}, (p.passages ?? p.facts ?? []).map((/** @type {any} */ f) => el('li', {}, words(f))))))), sheet);
  } catch (fault) {
    complain(fault);
  }
}

/** @param {HTMLElement} sheet @param {string} pupil */
async function open(sheet, pupil) {
  try {
    const answer = await post('/api/roster/sheet', { pupil });
    sheet.replaceChildren(el('h2', {}, pupil), ...(answer.parts ?? []).flatMap(part));
    sheet.focus();
  } catch (fault) {
    complain(fault);
  }
}

/** A part of a sheet: a heading, sentences, pictures. @param {any} p */
function part(p) {
  return [p.title ? el('h3', {}, p.title) : '', ...(p.lines ?? []).map((/** @type {unknown} */ l) => el('p', {}, words(l))),
    ...(p.svg ?? []).map((/** @type {string} */ s) => el('div', { class: 'option-lanes' }, drawing(s)))];
}
