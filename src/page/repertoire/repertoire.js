// What this part answers: what conversions do for a whole repertoire, as far as it is worked out.
import { el, report } from '../base/dom.js';
import { on, state } from '../base/state.js';
import { complain } from '../base/work.js';
import { get } from '../base/server.js';

/** @type {ReturnType<typeof setTimeout> | undefined} */
let again;

export function repertoireView() {
  const inside = el('div', {});
  const view = el('section', { id: 'view-repertoire', hidden: true, 'aria-label': 'Repertoire' }, el('h1', { class: 'unseen' }, 'Repertoire'), inside);
  on(['view', 'program'], () => {
    clearTimeout(again);
    if (state.view === 'repertoire' && state.program.repertoire) void fill(inside);
  });
  return view;
}

/** @param {HTMLElement} inside */
async function fill(inside) {
  try {
    const answer = await get('/api/repertoire');
    if (answer.state === 'working') {
      const share = Math.round((answer.share ?? 0) * 100);
      inside.replaceChildren(el('p', {}, el('label', { for: 'payoff-share' }, 'The repertoire is being worked out: '),
        el('progress', { id: 'payoff-share', max: 100, value: share }), ` ${share} %`));
      again = setTimeout(() => void fill(inside), 1000);
      return;
    }
    if (answer.state === 'failed') {
      inside.replaceChildren(el('div', { class: 'faults', role: 'alert' }, el('ul', {}, answer.messages.map((/** @type {string} */ m) => el('li', {}, m)))));
    } else if (answer.html) inside.replaceChildren(report(answer.html, 'What conversions do for the repertoire'));
  } catch (fault) {
    complain(fault);
  }
}
