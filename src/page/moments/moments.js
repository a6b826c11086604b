// What this part answers: the hardest moments of each side; each one jumps to its note.
import { el } from '../base/dom.js';
import { sideNames } from '../base/instruments.js';
import { on, state } from '../base/state.js';
import { goTo } from '../score/score.js';

export function momentsView() {
  const lists = el('div', {});
  const view = el('section', { class: 'moments' }, el('h2', {}, 'Hardest moments'), lists);
  on(['plan'], () => {
    const names = sideNames();
    const sides = state.plan?.sides ?? [];
    lists.replaceChildren(...sides.flatMap((side, i) => [
      sides.length > 1 ? el('h3', {}, names[i]) : '',
      side.hardest.length === 0 ? el('p', {}, 'None: no change of fingering is tight.') :
        el('ol', {}, side.hardest.map((m) => el('li', {},
          el('button', { type: 'button', class: 'link', onclick: () => goTo(m.note, true, i) }, m.where),
          m.fits ? '' : el('strong', { class: 'warning' }, ' does not fit'), el('span', {}, `: ${m.what}`))))]));
  });
  return view;
}
