// What this part answers: a view whose answer the server is still working out: how far it is, what failed, and in the end the answer.
import { el } from './dom.js';
import { on, state } from './state.js';
import { complain } from './work.js';
import { get } from './server.js';

/**
 * Fills the view whenever it is shown, and asks again every second until the work is done.
 * @param {HTMLElement} inside
 * @param {{view: 'class' | 'repertoire', there: () => boolean, path: string, working: string, done: (answer: any) => Node[]}} what
 */
export function whenWorkedOut(inside, { view, there, path, working, done }) {
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let again;
  async function fill() {
    try {
      const answer = await get(path);
      if (answer.state === 'working') {
        const share = Math.round((answer.share ?? 0) * 100);
        inside.replaceChildren(el('p', {}, el('label', { for: `${view}-share` }, working),
          el('progress', { id: `${view}-share`, max: 100, value: share }), ` ${share} %`));
        again = setTimeout(() => void fill(), 1000);
      } else if (answer.state === 'failed') {
        inside.replaceChildren(el('div', { class: 'faults', role: 'alert' }, el('ul', {}, answer.messages.map((/** @type {string} */ m) => el('li', {}, m)))));
      } else inside.replaceChildren(...done(answer));
    } catch (fault) {
      complain(fault);
    }
  }
  on(['view', 'program'], () => {
    clearTimeout(again);
    if (state.view === view && there()) void fill();
  });
}
