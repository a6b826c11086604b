// What this part answers: a class: its pupils, and each one's sheet.
import { el, report } from '../base/dom.js';
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
    if (answer.state === 'failed') {
      inside.replaceChildren(el('div', { class: 'faults', role: 'alert' }, el('ul', {}, answer.messages.map((/** @type {string} */ m) => el('li', {}, m)))));
      return;
    }
    const sheet = el('section', { class: 'sheet', tabindex: -1, 'aria-label': 'Sheet' });
    inside.replaceChildren(
      el('div', { class: 'pupils', role: 'group', 'aria-label': 'Pupils' }, (answer.assignment?.pupils ?? []).map((/** @type {any} */ pupil) =>
        el('button', { type: 'button', onclick: () => void open(sheet, pupil.id) }, pupil.name))),
      sheet, report(answer.html, 'The class'));
  } catch (fault) {
    complain(fault);
  }
}

/** @param {HTMLElement} sheet @param {string} pupil */
async function open(sheet, pupil) {
  try {
    const answer = await post('/api/roster/sheet', { pupil });
    sheet.replaceChildren(el('h2', {}, answer.name ?? pupil), ...answer.sheets.flatMap((/** @type {any} */ s) => [
      el('h3', {}, s.title ?? s.passage), report(s.html, `Sheet for ${answer.name ?? pupil}: ${s.title ?? s.passage}`)]));
    sheet.focus();
  } catch (fault) {
    complain(fault);
  }
}
