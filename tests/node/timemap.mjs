// Prints, for each MusicXML file named on the command line, the notes an engraver plays from it, as JSON:
// {"file": [{"onset", "length" (quarter notes), "onset_ms", "length_ms", "pitch" (sounding MIDI key), "grace"}]}
// Tied notes are one note. Scores of one part and one voice.
import fs from 'node:fs';
import createVerovioModule from 'verovio/wasm';
import { VerovioToolkit } from 'verovio/esm';

function attribute(tag, name) {
  const found = new RegExp(`\\s${name.replace('.', '\\.')}="([^"]*)"`).exec(tag);
  return found ? found[1] : undefined;
}

function tags(mei, name) {
  return mei.match(new RegExp(`<${name}\\s[^>]*>`, 'g')) ?? [];
}

function notesOf(toolkit, text) {
  if (!toolkit.loadData(text)) throw new Error('the engraver does not load it');
  const mei = toolkit.getMEI();
  const semitones = Number(tags(mei, 'staffDef').map((tag) => attribute(tag, 'trans.semi')).find(Boolean) ?? 0);
  const tiedFrom = new Map(tags(mei, 'tie').map((tag) => [attribute(tag, 'endid'), attribute(tag, 'startid')]));
  const notes = new Map();
  for (const moment of toolkit.renderToTimemap({})) {
    for (const id of moment.on ?? []) {
      const { pitch } = toolkit.getMIDIValuesForElement(id);
      const grace = Boolean(toolkit.getElementAttr(id).grace);
      notes.set(id, { onset: moment.qstamp, onset_ms: moment.tstamp, pitch: pitch + semitones, grace });
    }
    for (const id of moment.off ?? []) {
      const note = notes.get(id);
      note.length = moment.qstamp - note.onset;
      note.length_ms = moment.tstamp - note.onset_ms;
    }
  }
  const joined = [];
  const start = new Map();
  for (const [id, note] of notes) {
    const before = start.get((tiedFrom.get(`#${id}`) ?? '').slice(1));
    if (before) {
      before.length += note.length;
      before.length_ms += note.length_ms;
      start.set(id, before);
    } else {
      joined.push(note);
      start.set(id, note);
    }
  }
  return joined;
}

const toolkit = new VerovioToolkit(await createVerovioModule());
const result = {};
for (const file of process.argv.slice(2)) result[file] = notesOf(toolkit, fs.readFileSync(file, 'utf8'));
process.stdout.write(JSON.stringify(result));
