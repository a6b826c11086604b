// The page: what stands on it, and which view is shown. Every view is a folder of its own.
import { drawing, el, say, words } from './base/dom.js';
import { on, redo, set, state, undo } from './base/state.js';
import { bring, bringAsked, complain, learnProgram, replan } from './base/work.js';
import { bringView, dropping } from './bring/bring.js';
import { classView } from './class/class.js';
import { compareView } from './compare/compare.js';
import { helpWithKeys, keyboard } from './keys/keys.js';
import { momentsView } from './moments/moments.js';
import { noteView } from './note/note.js';
import { repertoireView } from './repertoire/repertoire.js';
import { saveView } from './save/save.js';
import { choicesView } from './note/choices.js';
import { scoreView } from './score/score.js';
import { summaryView } from './score/summary.js';
import { tempoView } from './tempo/tempo.js';
import { trillsView } from './trills/trills.js';

const views = ['passage', 'trills', 'repertoire', 'class'];

function passagePage() {
  const start = bringView();
  const tools = el('div', { class: 'tools', role: 'toolbar', 'aria-label': 'Play, tempo and choices', hidden: true }, tempoView(), undoButtons(), saveView());
  const beside = el('aside', { class: 'beside', 'aria-label': 'About the passage' },
    noteView(), momentsView(), compareView(), choicesView());
  const work = el('div', { class: 'work', hidden: true }, el('div', { class: 'paper' }, summaryView(), scoreView()), beside);
  on(['plan'], () => {
    tools.hidden = work.hidden = !state.plan;
  });
  return el('section', { id: 'view-passage', 'aria-label': 'Passage' }, start, faults(), tools, work);
}

function faults() {
  const box = el('div', { class: 'faults', role: 'alert' });
  on(['fault'], () => {
    box.replaceChildren(...state.fault.length === 0 ? [] : [el('h2', {}, 'This could not be done'), el('ul', {}, state.fault.map((f) => el('li', {}, f)))]);
  });
  return box;
}

function undoButtons() {
  const back = el('button', { type: 'button', onclick: undo, disabled: true, title: 'Undo the last choice (Z)' }, 'Undo');
  const again = el('button', { type: 'button', onclick: redo, disabled: true, title: 'Redo the choice (Shift+Z)' }, 'Redo');
  on(['done', 'undone'], () => {
    back.disabled = state.done === 0;
    again.disabled = state.undone === 0;
  });
  return el('span', { class: 'group' }, back, again);
}

/** Shows the view that the address names. */
function show() {
  const wanted = location.hash.slice(1);
  const view = views.includes(wanted) ? wanted : 'passage';
  for (const name of views) {
    const section = document.getElementById('view-' + name);
    if (section) section.hidden = name !== view;
  }
  for (const link of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll('nav [data-view]'))) {
    if (link.dataset.view === view) link.setAttribute('aria-current', 'page');
    else link.removeAttribute('aria-current');
  }
  if (view !== state.view) say(`${view} page`);
  set({ view });
}

function tellProgram() {
  const { cautions, repertoire, roster } = state.program;
  const guide = document.getElementById('guide');
  if (guide) guide.hidden = !state.program.guide;
  const hatching = state.program.lanes?.hatching;
  if (hatching) document.getElementById('patterns')?.replaceChildren(drawing(hatching));
  document.getElementById('cautions')?.replaceChildren(...cautions.map((c) => el('li', {}, words(c))));
  for (const [name, there] of /** @type {[string, boolean][]} */ ([['repertoire', repertoire], ['class', roster]])) {
    const link = document.querySelector(`nav [data-view="${name}"]`);
    if (link instanceof HTMLElement) link.hidden = !there;
  }
}

async function begin() {
  const main = document.getElementById('main');
  if (!main) return;
  main.append(passagePage(), trillsView(), repertoireView(), classView());
  on(['program'], tellProgram);
  on(['choices'], () => void replan());
  dropping(document.body, (origin) => {
    location.hash = '#passage';
    void bring(origin);
  });
  keyboard();
  document.getElementById('show-keys')?.addEventListener('click', helpWithKeys);
  addEventListener('hashchange', show);
  try {
    await learnProgram();
    void bringAsked();
  } catch (fault) {
    complain(fault);
  }
  show();
  document.body.dataset.ready = 'yes';
}

void begin();
