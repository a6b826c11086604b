// What the page looks like and how it holds up: three widths, two schemes, an accessibility check, a very long part.
import assert from 'node:assert/strict';
import fs from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { demo, drop, longScore, served, shots } from './browser.mjs';

const axe = fs.readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
fs.mkdirSync(shots, { recursive: true });
const { folder, onPage } = served();

/** Serious findings, in a line each. The checker is put in by the debugger, past the page's policy. */
async function findings(page) {
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => globalThis.axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'best-practice'] }));
  return violations.filter((v) => ['serious', 'critical'].includes(v.impact)).flatMap((v) => v.nodes.slice(0, 3).map((n) => `${v.id}: ${n.target.join(' ')} ${n.failureSummary}`));
}

const widths = { phone: [390, 844], tablet: [820, 1180], desktop: [1280, 950] };
for (const [name, [width, height]] of Object.entries(widths)) {
  for (const dark of [false, true]) {
    onPage(`${name}, ${dark ? 'dark' : 'light'}: nothing sticks out, and the accessibility checker has no serious finding`, async (page) => {
      const shot = (what) => page.screenshot({ path: path.join(shots, `${name}-${dark ? 'dark-' : ''}${what}.png`) });
      await shot('start');
      assert.deepEqual(await findings(page), []);
      await demo(page);
      await shot('passage');
      const sticksOut = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      assert.ok(sticksOut <= 1, `${sticksOut} pixels wider than the window`);
      await page.locator('.moments button.link').first().click();
      await page.waitForSelector('.note-panel .option');
      await page.waitForTimeout(300);
      await shot('note');
      assert.deepEqual(await findings(page), []);
      await page.keyboard.press('Escape');
      if (!dark) {
        await page.locator('nav a[data-view="trills"]').click();
        await page.waitForSelector('.trill-board .cell', { timeout: 90000 });
        await page.locator('.trill-board .cell').nth(3).click();
        await page.waitForSelector('.pair svg');
        await shot('trills');
        assert.deepEqual(await findings(page), []);
      }
    }, { width, height, dark });
  }
}

onPage('of a part of 5,000 notes only what is near the window is drawn and kept', async (page) => {
  const file = path.join(folder, 'long.musicxml');
  fs.writeFileSync(file, longScore(5000));
  await drop(page, file);
  await page.waitForSelector('svg.engraved', { timeout: 240000 });
  const boxes = await page.locator('.system-box').count();
  assert.ok(boxes > 60, `${boxes} systems`);
  const kept = () => page.locator('svg.engraved').count();
  assert.ok((await kept()) < 15);
  const slow = await page.evaluate(async () => {
    let worst = 0;
    let last = performance.now();
    for (let i = 1; i <= 120; ++i) {
      scrollTo(0, (document.documentElement.scrollHeight * i) / 120);
      await new Promise((done) => requestAnimationFrame(done));
      const now = performance.now();
      worst = Math.max(worst, now - last);
      last = now;
    }
    return worst;
  });
  console.log(`longest frame while scrolling through ${boxes} systems: ${Math.round(slow)} ms`);
  const there = Date.now();
  await page.waitForFunction(() => [...document.querySelectorAll('.system-box')].slice(-2).some((b) => b.querySelector('svg.engraved') && b.querySelector('svg.system')), null, { timeout: 20000 });
  console.log(`the last systems came after ${Date.now() - there} ms`);
  assert.ok((await kept()) < 20, `${await kept()} systems kept`);
}, { timeout: 300000 });
