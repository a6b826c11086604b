// Prints, for each MusicXML file named on the command line, the notes an engraver draws from it with the fingerings it
// draws at each, as JSON: {"file": [{"pitch": "Eb3" (as written), "fingerings": ["..."]}]}
// Notes in the order of the score; for scores of one part and one voice. Both notes of a tie count.
import fs from 'node:fs';
import createVerovioModule from 'verovio/wasm';
import { VerovioToolkit } from 'verovio/esm';

const signs = { s: '#', ss: '##', x: '##', f: 'b', ff: 'bb', n: '' };

function attribute(tag, name) {
  const found = new RegExp(`\\s${name.replace('.', '\\.')}="([^"]*)"`).exec(tag);
  return found ? found[1] : undefined;
}

// What is drawn, not what is in the engraver's memory: the groups of class "fing" in its pages.
function drawn(toolkit) {
  const texts = new Map();
  for (let page = 1; page <= toolkit.getPageCount(); ++page) {
    const svg = toolkit.renderToSVG(page, {});
    for (const [, id, content] of svg.matchAll(/<g id="([^"]+)" class="fing"[^>]*>([\s\S]*?)<\/g>/g)) {
      const text = content.replace(/<[^>]*>/g, '').replace(/[ \t\r\n]*\n[ \t\r\n]*/g, '');
      texts.set(id, text.replace(/&lt;/g, '<').replace(/&gt;/g, '>').replace(/&amp;/g, '&'));
    }
  }
  return texts;
}

function notesOf(toolkit, text) {
  if (!toolkit.loadData(text)) throw new Error('the engraver does not load it');
  const mei = toolkit.getMEI();
  const notes = new Map();
  for (const [tag, inside] of [...mei.matchAll(/<note\s[^>]*?\/>|<note\s[^>]*>([\s\S]*?)<\/note>/g)].map((m) => [m[0], m[1] ?? ''])) {
    const start = /^<note\s[^>]*>/.exec(tag)[0];
    const accidental = /<accid\s[^>]*>/.exec(inside)?.[0] ?? '';
    const sign = [start, accidental].flatMap((t) => [attribute(t, 'accid.ges'), attribute(t, 'accid')]).find(Boolean);
    const pitch = attribute(start, 'pname').toUpperCase() + (signs[sign ?? 'n'] ?? '?') + attribute(start, 'oct');
    notes.set(attribute(start, 'xml:id'), { pitch, fingerings: [] });
  }
  const texts = drawn(toolkit);
  for (const [tag] of mei.matchAll(/<fing\s[^>]*>/g)) {
    const id = attribute(tag, 'xml:id');
    const note = notes.get((attribute(tag, 'startid') ?? '').slice(1));
    if (!note) throw new Error(`the fingering "${texts.get(id)}" is at no note`);
    if (texts.has(id)) note.fingerings.push(texts.get(id));
  }
  return [...notes.values()];
}

const toolkit = new VerovioToolkit(await createVerovioModule());
const result = {};
for (const file of process.argv.slice(2)) result[file] = notesOf(toolkit, fs.readFileSync(file, 'utf8'));
process.stdout.write(JSON.stringify(result));
