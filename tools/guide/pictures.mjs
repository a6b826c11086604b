// Takes the guide's pictures of whole pages with Chromium: node pictures.mjs CHROMIUM. Run made.mjs before.
import { chromium } from "playwright-core";

const here = new URL("./", import.meta.url);
const made = new URL("../../build/guide-made/", here);
const shots = [
  { page: "plan.html", to: "plan.png", height: 760 },
  { page: "payoff.html", to: "payoff.png", height: 900 },
  { page: "sheets/index.html", to: "class.png", height: 640 },
];

const browser = await chromium.launch({ executablePath: process.argv[2], args: ["--no-sandbox"] });
for (const shot of shots) {
  const page = await browser.newPage({ viewport: { width: 1000, height: shot.height }, colorScheme: "light" });
  await page.goto(new URL(shot.page, made).href);
  await page.screenshot({ path: new URL(`pictures/${shot.to}`, here).pathname });
  await page.close();
}
await browser.close();
