// What this part answers: the tempo with the ceiling on it, playing at a practice tempo, and looping over bars.
import { el, settled } from '../base/dom.js';
import { timeWords } from '../base/places.js';
import { on, set, state } from '../base/state.js';
import { changeSettings } from '../base/work.js';
import { play, playing, stop } from './player.js';

/** @param {number | null | undefined} qpm */
const whole = (qpm) => (qpm ? Math.floor(qpm + 1e-6) : null);

export function tempoView() {
  const slider = el('input', { type: 'range', min: 30, max: 200, step: 1, id: 'tempo', 'aria-describedby': 'tempo-ceiling', list: 'ceilings' });
  const shown = el('output', { for: 'tempo' });
  const ceiling = el('span', { id: 'tempo-ceiling', class: 'ceiling-words' });
  const marks = el('div', { class: 'ceiling-marks', 'aria-hidden': 'true' });
  const asWritten = el('button', { type: 'button', class: 'plain', title: 'Back to the tempo in the score', onclick: () => void changeSettings({ tempo: null }) }, 'As written');
  const later = settled(120, () => void changeSettings({ tempo: Number(slider.value) }));
  slider.addEventListener('input', () => {
    tell();
    later();
  });
  function tell() {
    shown.textContent = `${slider.value} quarters a minute`;
  }
  on(['plan'], () => {
    const plan = state.plan;
    if (!plan) return;
    const ceilings = plan.sides.map((s) => whole(s.ceiling_qpm));
    slider.min = '20';
    slider.max = String(Math.max(160, Math.min(400, Math.ceil((Math.max(plan.passage.tempo_qpm, ...ceilings.map((c) => c ?? 0)) * 1.15) / 10) * 10)));
    if (document.activeElement !== slider || !state.busy) slider.value = String(Math.round(state.settings.tempo ?? plan.passage.tempo_qpm));
    tell();
    asWritten.hidden = state.settings.tempo === null;
    const names = plan.sides.length > 1 ? ['first', 'second'] : ['ceiling'];
    ceiling.textContent = ceilings.map((c, i) => (c === null ? '' : `${plan.sides.length > 1 ? `${names[i]}: ` : ''}fits up to ${c}`)).filter(Boolean).join('; ');
    marks.replaceChildren(...ceilings.flatMap((c, i) => {
      if (c === null) return [];
      const share = (c - Number(slider.min)) / (Number(slider.max) - Number(slider.min));
      const mark = el('span', { class: 'ceiling-mark' }, plan.sides.length > 1 ? String(i + 1) : '');
      mark.style.setProperty('--at', String(Math.min(1, Math.max(0, share))));
      return [mark];
    }));
  });
  return el('div', { class: 'group tempo' }, playButtons(),
    el('div', { class: 'tempo-field' }, el('label', { for: 'tempo' }, 'Tempo '), shown,
      el('div', { class: 'slider' }, slider, marks), ceiling, asWritten));
}

function playButtons() {
  const button = el('button', { type: 'button', class: 'play', title: 'Play or stop (Space)', onclick: () => (playing() ? stop() : play(practice())) }, 'Play');
  const speed = el('select', { id: 'practice', title: 'How fast it is played' }, [100, 90, 80, 70, 60, 50, 40].map((p) => el('option', { value: String(p / 100) }, `${p} %`)));
  const practice = () => Number(speed.value);
  const from = el('select', { id: 'loop-from' });
  const to = el('select', { id: 'loop-to' });
  const looped = () => set({ loop: from.value === '' ? null : [from.value, to.value || from.value] });
  from.addEventListener('change', () => {
    if (from.value !== '' && Number(to.value || -1) < Number(from.value)) to.value = from.value;
    looped();
  });
  to.addEventListener('change', () => {
    if (from.value === '' || Number(from.value) > Number(to.value)) from.value = to.value;
    looped();
  });
  addEventListener('fingerway-playing', () => {
    button.textContent = playing() ? 'Stop' : 'Play';
    button.setAttribute('aria-pressed', String(playing()));
  });
  document.addEventListener('keydown', (event) => {
    if (event.key !== ' ' || !state.plan || state.view !== 'passage') return;
    if (event.target instanceof Element && event.target.closest('button, input, select, summary, textarea, a, dialog')) return;
    event.preventDefault();
    button.click();
  });
  let known = '';
  on(['plan'], () => {
    const bars = state.plan?.passage.bars ?? [];
    const key = bars.map((b) => b.name).join();
    if (key === known) return;
    known = key;
    const options = () => bars.map((b, i) => el('option', { value: String(i) }, b.pass > 1 ? `${b.name}, ${timeWords(b.pass)}` : b.name));
    from.replaceChildren(el('option', { value: '' }, 'all'), ...options());
    to.replaceChildren(el('option', { value: '' }, '–'), ...options());
  });
  return el('span', { class: 'group' }, button, el('label', { for: 'practice' }, 'at '), speed,
    el('span', { class: 'loop' }, el('label', { for: 'loop-from' }, 'Loop bars '), from, el('label', { for: 'loop-to' }, ' to '), to));
}
