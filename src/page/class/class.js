// What this part answers: a class: its pupils, and each one's sheet.
import { el, report } from '../base/dom.js';
import { state } from '../base/state.js';
import { whenWorkedOut } from '../base/waiting.js';
import { complain } from '../base/work.js';
import { post } from '../base/server.js';

export function classView() {
  const inside = el('div', {});
  whenWorkedOut(inside, { view: 'class', there: () => state.program.roster, path: '/api/roster',
    working: 'The sheets are being worked out: ', done: pupils });
  return el('section', { id: 'view-class', hidden: true, 'aria-label': 'Class' }, el('h1', {}, 'Class'), inside);
}

/** @param {any} answer */
function pupils(answer) {
  const sheet = el('section', { class: 'sheet', tabindex: -1, 'aria-label': 'Sheet' });
  const buttons = answer.assignment.pupils.map((/** @type {{id: string, name: string}} */ pupil) =>
    el('button', { type: 'button', 'aria-pressed': 'false', onclick: (/** @type {Event} */ event) => {
      for (const button of buttons) button.setAttribute('aria-pressed', String(button === event.currentTarget));
      void open(sheet, pupil.id);
    } }, pupil.name));
  return [el('div', { class: 'pupils', role: 'group', 'aria-label': 'Pupils' }, buttons), sheet, report(answer.html, 'The class')];
}

/** @param {HTMLElement} sheet @param {string} pupil */
async function open(sheet, pupil) {
  try {
    const answer = await post('/api/roster/sheet', { pupil });
    sheet.replaceChildren(el('h2', {}, answer.name), ...answer.sheets.map((/** @type {{title: string, html: string}} */ s) =>
      report(s.html, `Sheet for ${answer.name}: ${s.title}`)));
    sheet.focus();
  } catch (fault) {
    complain(fault);
  }
}
