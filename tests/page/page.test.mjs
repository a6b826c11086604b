// The page in a real browser: what a player does with it, and what must not happen.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import fs from 'node:fs';
import path from 'node:path';
import { demo, drawn, drop, facts, score, serve, served, visit } from './browser.mjs';

const at = served();
const { folder, onPage } = at;

/** Chooses bars of one system. */
async function bars(page, which) {
  await page.locator('details.setup > summary').click();
  await page.getByLabel('Bars', { exact: true }).fill(which);
  await page.getByLabel('Bars', { exact: true }).press('Enter');
  await page.waitForFunction(() => document.querySelectorAll('.system-box').length === 1);
  await drawn(page);
}

onPage('a dropped score shows its music, with every note\'s lanes under its note head', async (page) => {
  await drop(page, score('lowland-round.musicxml'));
  await drawn(page);
  assert.match(await page.locator('.summary h1').innerText(), /Lowland/);
  assert.ok((await page.locator('svg.engraved .fing').count()) > 0, 'no marks in the music');
  const apart = await page.evaluate(() => {
    const far = [];
    let seen = 0;
    for (const box of document.querySelectorAll('.system-box')) {
      const heads = [...box.querySelectorAll('svg.engraved .note .notehead')].map((h) => h.getBoundingClientRect().left);
      for (const name of box.querySelectorAll('.lanes [data-note] text.note, .lanes text.note[data-note]')) {
        const left = name.getBoundingClientRect().left;
        ++seen;
        if (!heads.some((h) => Math.abs(h - left) < 3)) far.push(`${name.textContent} at ${left}`);
      }
    }
    return { far, seen };
  });
  assert.ok(apart.seen > 10, `${apart.seen} names in sight`);
  assert.deepEqual(apart.far, []);
});

onPage('a file that is no score is refused in the reader\'s words', async (page) => {
  const file = path.join(folder, 'no-score.musicxml');
  fs.writeFileSync(file, '<score-partwise><part');
  // The browser itself notes an answer of 400 in its console.
  await drop(page, file);
  await page.waitForSelector('.faults li');
  assert.match(await page.locator('.faults').innerText(), /no-score\.musicxml/);
}, { expected: /400/ });

onPage('a note opens with its fingerings; a pin is taken, undone and done again', async (page) => {
  await demo(page);
  await page.locator('.moments button.link').first().click();
  await page.waitForSelector('.note-panel .option');
  const options = page.locator('.note-panel .option');
  assert.ok((await options.count()) > 1);
  assert.match(await options.nth(0).innerText(), /Chosen in this plan/);
  assert.match(await options.nth(1).innerText(), /Costs the passage .* more/);
  assert.ok((await options.nth(0).locator('svg').count()) > 0);
  const wanted = await options.nth(1).locator('.compact').innerText();
  const before = await facts(page);
  await options.nth(1).getByRole('button', { name: 'Pin' }).click();
  await page.waitForFunction((w) => document.querySelector('.note-panel .option.chosen .compact')?.textContent === w, wanted);
  assert.match(await page.locator('.choices').innerText(), /Pinned/);
  await drawn(page);
  assert.notEqual(await facts(page), before);
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.waitForFunction((w) => document.querySelector('.note-panel .option.chosen .compact')?.textContent !== w, wanted);
  await drawn(page);
  assert.equal(await facts(page), before);
  await page.getByRole('button', { name: 'Redo' }).click();
  await page.waitForFunction((w) => document.querySelector('.note-panel .option.chosen .compact')?.textContent === w, wanted);
});

onPage('a fingering is banned, and a finger held still', async (page) => {
  await demo(page);
  // A ban is offered where something is left without it: the first hard moment of which that is true.
  const ban = page.getByRole('button', { name: 'Ban here' }).last();
  const moments = page.locator('.moments button.link');
  for (let i = 0; i < await moments.count() && !(await ban.isVisible()); i += 1) {
    await moments.nth(i).click();
    await page.waitForSelector('.note-panel .option');
    await page.waitForTimeout(1000);
  }
  const banned = await page.locator('.option', { has: page.getByRole('button', { name: 'Ban here' }) }).last().locator('.compact').innerText();
  await ban.click();
  await page.waitForFunction(() => /Never together/.test(document.querySelector('.choices')?.textContent ?? ''));
  await page.waitForFunction((w) => ![...document.querySelectorAll('.note-panel .compact')].some((c) => c.textContent === w), banned);
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.waitForFunction((w) => [...document.querySelectorAll('.note-panel .compact')].some((c) => c.textContent === w), banned);
  await page.getByRole('button', { name: 'Hold it still' }).click();
  await page.waitForFunction(() => /Held still/.test(document.querySelector('.choices')?.textContent ?? ''));
});

onPage('two instruments stand one above the other, with what differs, is gained and lost', async (page) => {
  await demo(page);
  await page.locator('details.setup > summary').click();
  await page.getByLabel('Beside it').selectOption({ index: 1 });
  await page.waitForSelector('.compare:not([hidden])');
  await drawn(page);
  await page.locator('.conversions').last().locator('summary').click();
  await page.locator('#with_base-interlinked-low-keys').check();
  await page.waitForFunction(() => /Gained \([1-9]/.test(document.querySelector('.compare')?.textContent ?? ''));
  await drawn(page);
  assert.match(await page.locator('.compare').innerText(), /Notes that differ \([1-9]/);
  assert.ok((await page.locator('.lanes text.block-title').count()) > 1);
  assert.ok((await page.locator('.lanes .differs-line').count()) > 0);
  const marks = await page.locator('svg.engraved .fing').allTextContents();
  await page.locator('#engraved-1').check();
  await page.waitForFunction((m) => JSON.stringify([...document.querySelectorAll('svg.engraved .fing')].map((f) => f.textContent)) !== m, JSON.stringify(marks));
});

onPage('the tempo has the ceiling on it and decides whether the passage fits', async (page) => {
  await demo(page);
  await bars(page, '10');
  assert.match(await facts(page), /does not fit the tempo/);
  const ceiling = Number(/up to (\d+)/.exec(await page.locator('#tempo-ceiling').innerText())[1]);
  assert.ok((await page.locator('.ceiling-mark').count()) === 1);
  const set = (value) => page.locator('#tempo').evaluate((slider, v) => {
    slider.value = String(v);
    slider.dispatchEvent(new Event('input', { bubbles: true }));
  }, value);
  await set(ceiling);
  await page.waitForFunction(() => /It fits the tempo/.test(document.querySelector('.summary')?.textContent ?? ''));
  await page.getByRole('button', { name: 'As written' }).click();
  await page.waitForFunction(() => /does not fit the tempo/.test(document.querySelector('.summary')?.textContent ?? ''));
});

onPage('playing moves a line over music and lanes, in a loop of bars, and stops', async (page) => {
  await demo(page);
  await page.locator('#loop-from').selectOption('2');
  await page.getByRole('button', { name: 'Play', exact: true }).click();
  await page.waitForSelector('.playhead');
  const place = () => page.locator('.playhead').evaluate((p) => p.getBoundingClientRect().left);
  const first = await place();
  await page.waitForFunction((f) => Math.abs((document.querySelector('.playhead')?.getBoundingClientRect().left ?? f) - f) > 15, first);
  await page.waitForTimeout(3500);
  assert.equal(await page.locator('.playhead').count(), 1, 'the loop came to an end');
  await page.getByRole('button', { name: 'Stop' }).click();
  assert.equal(await page.locator('.playhead').count(), 0);
});

onPage('bars, player file and another part of the setup change what is planned', async (page) => {
  await demo(page);
  await bars(page, '10');
  assert.match(await page.locator('.moments').innerText(), /bar 10/);
  await page.getByLabel('Player file').setInputFiles(score('players/tilda.yaml'));
  await page.waitForFunction(() => /Tilda/i.test(document.querySelector('.summary')?.textContent ?? '') || document.querySelector('.faults li'));
  assert.deepEqual(await page.locator('.faults li').allInnerTexts(), []);
});

onPage('what the server has dropped is brought again without a word', async (page) => {
  await demo(page);
  let gone = 1;
  await page.route('**/api/note', (route) => (gone-- > 0 ? route.fulfill({ status: 410, contentType: 'application/json', body: '{"error":{"messages":["gone"]}}' }) : route.continue()));
  await page.locator('.moments button.link').first().click();
  await page.waitForSelector('.note-panel .option');
  assert.equal(await page.locator('.faults li').count(), 0);
}, { expected: /410/ });

onPage('without an engraver the page works with note names, and says so', async (page) => {
  await demo(page);
  assert.match(await page.locator('.remark').innerText(), /engraver is not installed/);
  assert.equal(await page.locator('svg.engraved').count(), 0);
  await page.locator('.lanes [data-note]').first().click();
  await page.waitForSelector('.note-panel .option');
}, { prepare: async (page) => {
  await page.route('**/api/program', async (route) => {
    const answer = await route.fetch();
    await route.fulfill({ response: answer, json: { ...(await answer.json()), engraver: false } });
  });
} });

onPage('a pair of the board of trills opens in lanes', async (page) => {
  await page.locator('nav a[data-view="trills"]').click();
  await page.waitForSelector('.trill-board .cell', { timeout: 90000 });
  const cells = page.locator('.trill-board .cell');
  assert.ok((await cells.count()) > 200);
  await cells.first().focus();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await page.waitForSelector('.pair svg');
  assert.match(await page.locator('.pair').innerText(), /notes a second/);
});

onPage('the keyboard alone brings a demo, opens a note, pins, undoes, plays and stops', async (page) => {
  await page.keyboard.press('Tab');
  assert.equal(await page.evaluate(() => document.activeElement?.className), 'skip');
  for (let i = 0; i < 30 && !(await page.evaluate(() => /Lowland/.test(document.activeElement?.textContent ?? '') && document.activeElement?.tagName === 'BUTTON')); ++i) await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await drawn(page);
  await page.keyboard.press('n');
  for (let i = 0; i < 4; ++i) await page.keyboard.press('ArrowRight');
  assert.match(await page.locator('#said').textContent(), /^bar \d+, beat/);
  await page.keyboard.press('Enter');
  await page.waitForSelector('.note-panel .option');
  for (let i = 0; i < 60 && (await page.evaluate(() => document.activeElement?.getAttribute('data-key'))) !== 'pin-1'; ++i) await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => /Pinned/.test(document.querySelector('.choices')?.textContent ?? ''));
  await page.keyboard.press('z');
  await page.waitForFunction(() => document.querySelector('.choices')?.hidden);
  await page.keyboard.press('Escape');
  await page.waitForSelector('.note-panel', { state: 'hidden' });
  await page.keyboard.press(' ');
  await page.waitForSelector('.playhead');
  await page.keyboard.press(' ');
  await page.waitForSelector('.playhead', { state: 'detached' });
  await page.keyboard.press('?');
  await page.waitForSelector('dialog.keys[open]');
  await page.keyboard.press('Escape');
  await page.waitForSelector('dialog.keys', { state: 'hidden' });
});

test('the score that the command line names is there when the page opens, and stays until another is brought', { timeout: 120000 }, async () => {
  const server = await serve(score('tenor-walk.musicxml'));
  const { page, close } = await visit(at.browser, server.address, { opened: server.opened });
  await drawn(page);
  assert.match(await page.locator('.summary h1').innerText(), /Tenor Walk/);
  await page.locator('details.another > summary').click();
  await demo(page);
  assert.match(await page.locator('.summary h1').innerText(), /Lowland/);
  assert.equal(new URL(page.url()).search, '');
  await close();
  await server.stop();
});

onPage('an address with a score that is not kept says so', async (page) => {
  await page.goto(`${at.server.address}/?score=${'0'.repeat(32)}`);
  await page.waitForSelector('.faults li');
  assert.match(await page.locator('.faults').innerText(), /no longer kept/);
}, { expected: /410/ });

onPage('concert pitch, the repeats left out and a latch change what is planned', async (page) => {
  await demo(page);
  await page.locator('details.setup > summary').click();
  const planned = (response) => response.url().endsWith('/api/plan');
  const before = await page.evaluate(() => import('/page/base/state.js').then(({ state }) => state.plan));
  const answers = [];
  for (const [label, field, value] of [['whisper lock', 'latches', ['whisper-lock']], ['at concert pitch', 'concert', true], ['without its repeats', 'as_written', true]]) {
    const [response] = await Promise.all([page.waitForResponse(planned), page.getByLabel(label).check()]);
    assert.deepEqual(response.request().postDataJSON()[field], value);
    answers.push(await response.json());
    await drawn(page);
  }
  assert.deepEqual(await page.locator('.faults li').allInnerTexts(), []);
  const held = (plan) => plan.sides[0].notes.map((n) => n.compact).join();
  assert.notEqual(held(answers[0]), held(before), 'the latch changes no fingering');
});

/** A bar of two voices, and one where the first divides. */
const divided = () => {
  const note = (step, more = '', voice = 1) => `<note>${more}<pitch><step>${step}</step><octave>3</octave></pitch><duration>4</duration><voice>${voice}</voice><type>whole</type></note>`;
  return `<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Bassoon</part-name></score-part></part-list><part id="P1">
    <measure number="1"><attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time><clef><sign>F</sign><line>4</line></clef></attributes>
    ${note('E')}<backup><duration>4</duration></backup>${note('C', '', 2)}</measure>
    <measure number="2">${note('G')}${note('D', '<chord/>')}</measure></part></score-partwise>`;
};

onPage('where a part has voices or divides, the page lets the player choose', async (page) => {
  const file = path.join(folder, 'divided.musicxml');
  fs.writeFileSync(file, divided());
  await drop(page, file);
  await page.waitForSelector('.faults li');
  await page.locator('details.setup > summary').click();
  const names = () => page.locator('.lanes text.note').allTextContents();
  await page.getByLabel('Where the part divides').selectOption('top');
  await drawn(page);
  assert.deepEqual((await names()).map((n) => n.trim()), ['E3', 'G3']);
  await page.getByLabel('Where the part divides').selectOption('bottom');
  await page.waitForFunction(() => [...document.querySelectorAll('.lanes text.note')].some((n) => /D3/.test(n.textContent)));
  await page.getByLabel('Voice').selectOption('2');
  await page.waitForFunction(() => [...document.querySelectorAll('.lanes text.note')].map((n) => n.textContent.trim()).join() === 'C3');
}, { expected: /400/ });

onPage('a choice made for the second time of a repeat stays there, in the list and in the file', async (page) => {
  await drop(page, score('alder-street/low-bridge.musicxml'));
  await drawn(page);
  const plan = () => page.evaluate(() => import('/page/base/state.js').then(({ state }) => state.plan));
  const { passage, sides } = await plan();
  const again = passage.bars.findIndex((b) => b.pass === 2);
  const note = sides[0].notes.findIndex((n, i) => i >= passage.bars[again].first_note && n.choices > 1);
  assert.ok(note > 0);
  await page.evaluate((i) => import('/page/score/score.js').then(({ goTo }) => goTo(i, true)), note);
  await page.waitForSelector('.note-panel .option');
  assert.match(await page.locator('.note-panel h2').innerText(), /second time/);
  assert.equal(await page.locator('.note-panel [data-key^="time-"]').count(), 2);
  await page.locator('[data-key="pin-1"]').click();
  await page.waitForFunction(() => /Pinned: .*second time/.test(document.querySelector('.choices')?.textContent ?? ''));
  await drawn(page);
  const pins = () => page.evaluate(() => import('/page/base/state.js').then(({ state }) => state.choices[0].pins));
  const before = await pins();
  assert.deepEqual(before.map((p) => p.note), [note]);
  await page.locator('details.save > summary').click();
  const [saved] = await Promise.all([page.waitForEvent('download'), page.locator('[data-save="choices"]').click()]);
  const to = path.join(folder, 'second.yaml');
  await saved.saveAs(to);
  assert.match(fs.readFileSync(to, 'utf8'), /time 2/);
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.waitForFunction(() => document.querySelector('.choices')?.hidden);
  await page.locator('details.save > summary').click();
  await page.locator('#read-choices').setInputFiles(to);
  await page.waitForFunction(() => /Pinned: .*second time/.test(document.querySelector('.choices')?.textContent ?? ''));
  assert.deepEqual(await pins(), before);
});

onPage('marks in the music follow a pin', async (page) => {
  await demo(page);
  const marks = () => page.evaluate(() => JSON.stringify([...document.querySelectorAll('svg.engraved .fing')].map((f) => f.textContent.trim())));
  const before = await marks();
  await page.locator('.moments button.link').first().click();
  await page.waitForSelector('.note-panel .option');
  await page.locator('[data-key="pin-1"]').click();
  await page.waitForFunction(() => document.querySelector('.note-panel .option.chosen [aria-pressed="true"]'));
  await page.waitForFunction((b) => JSON.stringify([...document.querySelectorAll('svg.engraved .fing')].map((f) => f.textContent.trim())) !== b &&
    !document.querySelector('.fing.stale') && document.querySelector('.remark')?.textContent === '', before);
});

test('the guide is linked where there is one, and only there', { timeout: 120000 }, async () => {
  for (const guide of [true, false]) {
    const { page, close } = await at.visit({ prepare: (p) => p.route('**/api/program', async (route) => {
      const answer = await route.fetch();
      await route.fulfill({ response: answer, json: { ...(await answer.json()), guide } });
    }) });
    assert.equal(await page.locator('a#guide').isVisible(), guide);
    assert.equal(await page.locator('a#guide').getAttribute('href'), '/guide/index.html');
    await close();
  }
});
