// What this part answers: two instruments on the same passage: what differs, what is gained and what is lost.
import { el } from '../base/dom.js';
import { sideNames } from '../base/instruments.js';
import { on, state } from '../base/state.js';
import { goTo } from '../score/score.js';

export function compareView() {
  const inside = el('div', {});
  const view = el('section', { class: 'compare', hidden: true }, el('h2', {}, 'The two instruments'), inside);
  on(['plan'], () => {
    const compared = state.plan?.compare;
    view.hidden = !compared;
    if (!compared) return;
    const names = sideNames();
    inside.replaceChildren(
      el('p', { class: 'verdict' }, compared.verdict),
      el('div', { class: 'scroll', tabindex: 0, role: 'region', 'aria-label': 'Totals of both' }, el('table', {},
        el('thead', {}, el('tr', {}, el('td', {}), el('th', { scope: 'col' }, names[0]), el('th', { scope: 'col' }, names[1]))),
        el('tbody', {}, compared.totals.map((t) => el('tr', {}, el('th', { scope: 'row' }, t.label), el('td', {}, t.stock), el('td', {}, t.converted)))))),
      differing(compared), list('Gained', compared.gained), list('Lost', compared.lost));
  });
  return view;
}

/** @param {import('../base/types.d.ts').Compared} compared */
function differing(compared) {
  const most = 200;
  return el('details', {}, el('summary', {}, `Notes that differ (${compared.differing.length})`),
    el('ul', { class: 'differing' }, compared.differing.slice(0, most).map((d) => el('li', {},
      el('button', { type: 'button', class: 'link', onclick: () => goTo(d.note, true) }, d.where), el('br'),
      el('span', { class: 'quiet' }, 'first: '), d.stock || 'none', el('br'), el('span', { class: 'quiet' }, 'second: '), d.converted || 'none'))),
    compared.differing.length > most ? el('p', { class: 'quiet' }, `The first ${most}; the saved files name all.`) : null);
}

/** @param {string} title @param {{note: string, fingerings: string[]}[]} items */
function list(title, items) {
  return el('details', {}, el('summary', {}, `${title} (${items.length})`),
    items.length === 0 ? el('p', {}, 'Nothing that matters here.') : el('ul', {}, items.map((item) => el('li', {}, el('strong', {}, item.note), ': ', item.fingerings.join('; ')))));
}
