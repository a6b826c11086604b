// What this part answers: a payoff as tables: sets of conversions, each with gain, costs and what it does to every passage.
import { el } from '../base/dom.js';

const findings = /** @type {Record<string, string>} */ ({ pays: 'pays', 'does-not-pay': 'does not pay', 'no-difference': 'makes no difference', harms: 'harms' });

/** @param {number} share */
const percent = (share) => `${Math.round(share * 100)} %`;

/** @param {any} answer the payoff report @returns {HTMLElement[]} */
export function payoffParts(answer) {
  const payoff = answer.payoff ?? answer;
  const names = new Map((payoff.conversions ?? []).map((/** @type {any} */ c) => [c.id, c.name]));
  /** @param {any} set */
  const name = (set) => set.conversions.length === 0 ? 'as it is' : set.conversions.map((/** @type {string} */ id) => names.get(id) ?? id).join(' and ');
  const sets = [...(payoff.sets ?? [])];
  const best = payoff.sets?.[payoff.best];
  return [
    el('p', { class: 'subtitle' }, payoff.repertoire?.name ?? ''),
    ...(payoff.advice ?? []).map((/** @type {string} */ line) => el('p', { class: 'verdict' }, line)),
    best ? el('p', { class: 'verdict' }, 'Best for this repertoire: ', el('strong', {}, name(best)), '.') : el('p', {}, ''),
    scrolled('Sets of conversions', el('table', {},
      el('thead', {}, el('tr', {}, ['keywork', 'cost', 'gain, points', 'saved', 'notes fingered otherwise', 'finding'].map((h, i) => el('th', { scope: 'col', class: i > 1 && i < 5 ? 'number' : '' }, h)))),
      el('tbody', {}, sets.map((set) => el('tr', {}, el('th', { scope: 'row' }, name(set), set === best ? el('strong', {}, ' (best)') : null), el('td', {}, costWords(set.cost)),
        el('td', { class: 'number' }, String(Math.round(set.gain))), el('td', { class: 'number' }, percent(set.share)),
        el('td', { class: 'number' }, percent(set.changed_share)), el('td', {}, findings[set.finding] ?? set.finding)))))),
    ...(best ? [el('h2', {}, 'What the best set does to each passage'), passages(payoff, best)] : []),
    ...(payoff.conversions ?? []).map(conversion)];
}

/** @param {any} cost */
function costWords(cost) {
  if (!cost?.known) return 'not known';
  if (cost.to === 0) return 'nothing';
  return `${Math.round(cost.from)} to ${Math.round(cost.to)} ${cost.currency}`;
}

/** @param {any} payoff @param {any} set */
function passages(payoff, set) {
  return scrolled('Passages', el('table', {},
    el('thead', {}, el('tr', {}, ['passage', 'ceiling now', 'ceiling then', 'fits now', 'fits then', 'notes relieved', 'notes spoiled'].map((h) => el('th', { scope: 'col' }, h)))),
    el('tbody', {}, set.passages.map((/** @type {any} */ p) => el('tr', {}, el('th', { scope: 'row' }, payoff.repertoire.passages[p.passage]?.name ?? String(p.passage)),
      [ceiling(p.before), ceiling(p.after), p.before.fits ? 'yes' : 'no', p.after.fits ? 'yes' : 'no', Math.round(p.relieved), Math.round(p.spoiled)].map((t) => el('td', {}, String(t))))))));
}

/** @param {any} side */
const ceiling = (side) => (side.ceiling_qpm ? `${Math.floor(side.ceiling_qpm)}` : 'none');

/** @param {any} c */
function conversion(c) {
  return el('details', {}, el('summary', {}, `For the repairer: ${c.name}`), el('p', {}, c.what),
    el('h3', {}, 'Work'), el('ol', {}, (c.work ?? []).map((/** @type {string} */ w) => el('li', {}, w))),
    el('h3', {}, 'Upkeep'), el('ul', {}, (c.upkeep ?? []).map((/** @type {string} */ w) => el('li', {}, w))));
}

/** @param {string} label @param {HTMLTableElement} table */
const scrolled = (label, table) => el('div', { class: 'scroll', tabindex: 0, role: 'region', 'aria-label': label }, table);
