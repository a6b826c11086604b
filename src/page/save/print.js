// What this part answers: the passage laid out for paper, then printed: systems unbroken, cautions at the foot.
import { say } from '../base/dom.js';
import { layOutAgain, withAllDrawn } from '../score/score.js';

/** What a sheet has room for between its margins, in CSS pixels. */
const sheets = { A4: { width: 690, rule: '@page { size: A4 portrait; margin: 14mm 13mm 15mm; }' },
  letter: { width: 712, rule: '@page { size: letter portrait; margin: 14mm 13mm 15mm; }' } };

const sheet = new CSSStyleSheet();

/** @param {'A4' | 'letter'} paper */
export async function printed(paper) {
  const { width, rule } = sheets[paper];
  sheet.replaceSync(rule);
  if (!document.adoptedStyleSheets.includes(sheet)) document.adoptedStyleSheets.push(sheet);
  for (const menu of document.querySelectorAll('details.save')) menu.removeAttribute('open');
  document.body.classList.add('printing');
  document.body.style.setProperty('--sheet', `${width}px`);
  say('The sheet is being laid out');
  await withAllDrawn(() => {
    document.body.dataset.sheet = paper;
    return new Promise((done) => {
      addEventListener('afterprint', done, { once: true });
      print();
    });
  });
  document.body.classList.remove('printing');
  delete document.body.dataset.sheet;
  await layOutAgain();
}
