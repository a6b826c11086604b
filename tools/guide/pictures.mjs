// Takes the guide's pictures of whole pages with Chromium: node pictures.mjs CHROMIUM PROGRAM. Run made.mjs before.
import { spawn } from "node:child_process";
import { once } from "node:events";
import { copyFileSync } from "node:fs";
import { chromium } from "playwright-core";

const here = new URL("./", import.meta.url);
const made = new URL("../../build/guide-made/", here);
const shots = [
  { page: "plan.html", to: "plan.png", height: 960 },
  { page: "sheets/index.html", to: "class.png", height: 850 },
];

const browser = await chromium.launch({ executablePath: process.argv[2], args: ["--no-sandbox"] });
for (const shot of shots) {
  const page = await browser.newPage({ viewport: { width: 1000, height: shot.height }, colorScheme: "light" });
  await page.goto(new URL(shot.page, made).href);
  await page.screenshot({ path: new URL(`pictures/${shot.to}`, here).pathname });
  await page.close();
}

// README's finger lanes, and the page that the program serves, with the demo passage in it.
copyFileSync(new URL("lanes.svg", made), new URL("pictures/lanes.svg", here));
const served = spawn(process.argv[3], ["serve", "--port", "0"], { stdio: ["ignore", "pipe", "inherit"] });
try {
  const [said] = await once(served.stdout, "data");
  const address = String(said).match(/http:\S+/)[0];
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 }, colorScheme: "light" });
  page.setDefaultTimeout(120000);
  await page.goto(address);
  await page.locator("input[type=file]").first().setInputFiles(new URL("../../scores/alder-street/low-bridge.musicxml", here).pathname);
  await page.waitForSelector('.summary[aria-busy="false"] h1');
  await page.waitForSelector(".lanes svg.system");
  await page.waitForFunction(() => !/being engraved/.test(document.querySelector(".remark")?.textContent ?? ""));
  await page.screenshot({ path: new URL("pictures/page.png", here).pathname });
} finally {
  served.kill();
  await browser.close();
}
