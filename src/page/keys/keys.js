// What this part answers: the keys of the page, their list, and what they do where no field has them.
import { el } from '../base/dom.js';
import { redo, set, state, undo } from '../base/state.js';
import { goTo, noteAtHand } from '../score/score.js';

const list = /** @type {[string, string][]} */ ([
  ['Tab, Shift+Tab', 'to the next or previous control'],
  ['← →', 'among the notes: the note before or after'],
  ['Page up, Page down', 'among the notes: the bar before or after'],
  ['Home, End', 'among the notes: the first or last'],
  ['Enter', 'open the note'],
  ['Escape', 'close the note'],
  ['N', 'to the notes'],
  ['H', 'to the next of the hardest moments'],
  ['Space', 'play or stop'],
  ['Z, Shift+Z', 'undo, redo a choice'],
  ['S', 'save'],
  ['1, 2', 'marks in the music for the first or second instrument'],
  ['↑ ↓ ← →', 'on the board of trills: among the cells'],
  ['?', 'this list']]);

/** @type {HTMLDialogElement | undefined} */
let dialog;

export function helpWithKeys() {
  if (!dialog) {
    dialog = el('dialog', { class: 'keys', 'aria-labelledby': 'keys-title' }, el('h2', { id: 'keys-title' }, 'Keys'),
      el('dl', {}, list.flatMap(([keys, what]) => [el('dt', {}, keys.split(', ').flatMap((k, i) => [i ? ', ' : '', el('kbd', {}, k)])), el('dd', {}, what)])),
      state.program.guide ? el('p', {}, 'How to do what: ', el('a', { href: '/guide/index.html', target: '_blank', rel: 'noopener' }, 'the guide'), ', in short chapters.') : null,
      el('button', { type: 'button', onclick: () => dialog?.close() }, 'Close'));
    document.body.append(dialog);
  }
  dialog.showModal();
}

function nextHard() {
  const hard = state.plan?.sides[state.side]?.hardest.map((m) => m.note) ?? [];
  const next = hard[(hard.indexOf(noteAtHand()) + 1) % hard.length];
  if (next !== undefined) goTo(next, true);
}

/** @type {Record<string, () => void>} */
const actions = {
  '?': helpWithKeys, z: undo, Z: redo, h: nextHard,
  n: () => {
    /** @type {HTMLElement | null} */ (document.querySelector('.systems'))?.focus();
    goTo(Math.max(0, noteAtHand()));
  },
  s: () => {
    const menu = document.querySelector('details.save');
    if (!(menu instanceof HTMLDetailsElement)) return;
    menu.open = true;
    menu.querySelector('button')?.focus();
  },
  1: () => set({ side: 0 }),
  2: () => {
    if ((state.plan?.sides.length ?? 0) > 1) set({ side: 1 });
  } };

export function keyboard() {
  document.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.target instanceof Element && event.target.closest('input:not([type="checkbox"], [type="radio"]), select, textarea, dialog')) return;
    if (event.key === 'Escape' && state.open) {
      set({ open: null });
      return;
    }
    const action = actions[event.key];
    if (!action || (event.key !== '?' && (state.view !== 'passage' || !state.plan))) return;
    event.preventDefault();
    action();
  });
}
