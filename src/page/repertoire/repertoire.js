// What this part answers: what conversions do for a whole repertoire, as far as it is worked out.
import { el, report } from '../base/dom.js';
import { state } from '../base/state.js';
import { whenWorkedOut } from '../base/waiting.js';

export function repertoireView() {
  const inside = el('div', {});
  whenWorkedOut(inside, { view: 'repertoire', there: () => state.program.repertoire, path: '/api/repertoire',
    working: 'The repertoire is being worked out: ',
    done: (answer) => [report(answer.html, 'What conversions do for the repertoire')] });
  return el('section', { id: 'view-repertoire', hidden: true, 'aria-label': 'Repertoire' }, el('h1', { class: 'unseen' }, 'Repertoire'), inside);
}
