// What the page saves and prints, opened again.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { demo, drawn, drop, served } from './browser.mjs';

const at = served();
const { folder, onPage } = at;

async function save(page, kind) {
  await page.locator('details.save > summary').click();
  const [file] = await Promise.all([page.waitForEvent('download'), page.locator(`[data-save="${kind}"]`).click()]);
  const to = path.join(folder, file.suggestedFilename());
  await file.saveAs(to);
  return to;
}

test('every kind of file is saved and can be used again', { timeout: 180000 }, async () => {
  const { page, close } = await at.visit();
  await demo(page);
  await page.locator('.moments button.link').first().click();
  await page.waitForSelector('.note-panel .option');
  await page.locator('[data-key="pin-1"]').click();
  await page.waitForFunction(() => /Pinned/.test(document.querySelector('.choices')?.textContent ?? ''));
  await drawn(page);

  const json = JSON.parse(fs.readFileSync(await save(page, 'json'), 'utf8'));
  assert.equal(json.format, 'fingerway/plan');
  const csv = fs.readFileSync(await save(page, 'csv'), 'utf8').trim().split('\n');
  assert.equal(csv.length, json.notes.length + 1);

  const choices = await save(page, 'choices');
  assert.match(fs.readFileSync(choices, 'utf8'), /pins:/);
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.waitForFunction(() => document.querySelector('.choices')?.hidden);
  await page.locator('details.save > summary').click();
  await page.locator('#read-choices').setInputFiles(choices);
  await page.waitForFunction(() => /Pinned/.test(document.querySelector('.choices')?.textContent ?? ''));
  await drawn(page);

  const alone = await save(page, 'page');
  const marked = await save(page, 'musicxml');
  assert.match(fs.readFileSync(marked, 'utf8'), /<fingering/);
  await drop(page, marked);
  await page.waitForFunction(() => document.querySelector('.choices')?.hidden);
  await drawn(page);
  assert.equal(await page.locator('.faults li').count(), 0);
  await close();

  const context = await at.browser.newContext({ offline: true });
  const offline = await context.newPage();
  const wrong = [];
  offline.on('console', (m) => m.type() === 'error' && wrong.push(m.text()));
  offline.on('request', (r) => r.url().startsWith('file:') || r.url().startsWith('data:') || wrong.push(r.url()));
  await offline.goto(pathToFileURL(alone).href);
  assert.ok((await offline.locator('svg .notehead').count()) >= json.notes.length * 0.9, 'the music is not all there');
  assert.ok((await offline.locator('svg.system').count()) > 1);
  assert.match(await offline.locator('body').innerText(), /pain|numb/i);
  assert.deepEqual(wrong, []);
  await context.close();
});

const points = { A4: [595, 842], letter: [612, 792] };
for (const [paper, [width, height]] of Object.entries(points)) {
  onPage(`the passage prints on ${paper}, systems unbroken, cautions at the foot`, async (page) => {
    await demo(page);
    await page.locator('details.save > summary').click();
    await page.locator(`[data-print="${paper}"]`).click();
    await page.waitForSelector('body[data-printed]', { state: 'attached', timeout: 60000 });
    const systems = await page.locator('.system-box').count();
    assert.equal(await page.locator('.system-box svg.engraved').count(), systems);
    const file = path.join(folder, `${paper}.pdf`);
    await page.pdf({ path: file, preferCSSPageSize: true });
    const told = execFileSync('pdfinfo', [file], { encoding: 'utf8' });
    const pages = Number(/Pages:\s+(\d+)/.exec(told)[1]);
    const [, w, h] = /Page size:\s+([\d.]+) x ([\d.]+)/.exec(told);
    assert.ok(Math.abs(w - width) < 2 && Math.abs(h - height) < 2, `${w} x ${h}`);
    assert.ok(pages >= 2 && pages <= systems, `${pages} pages for ${systems} systems`);
    const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }).trim().split('\f');
    assert.match(text.at(-1), /pain|numb/i);
    // A system that was broken would leave its bar number on one page and its hand's line on the next.
    assert.equal((text.join('').match(/whole hand/g) ?? []).length > 0, true);
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    await page.waitForFunction(() => !document.body.classList.contains('printing'));
  });
}
