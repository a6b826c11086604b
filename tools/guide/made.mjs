// Lets the program draw what the chapters show: node made.mjs PROGRAM. Leaves pages, their style, and README's picture
// (lanes.svg) in build/guide-made.
import { execFileSync } from "node:child_process";
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

import { lanes } from "./drawn.mjs";

const program = process.argv[2];
const project = fileURLToPath(new URL("../../", import.meta.url));
const made = `${project}build/guide-made`;
const bridge = "scores/alder-street/low-bridge.musicxml";
const low = "bassoon+interlinked-low-keys";

// Exit code 1 means done, but something does not fit: that is what some pictures are to show.
function run(...words) {
  try {
    execFileSync(program, words, { cwd: project, stdio: ["ignore", "ignore", "pipe"] });
  } catch (error) {
    if (error.status !== 1) throw new Error(`fingerway ${words.join(" ")}\n${error.stderr ?? error.message}`);
  }
}

rmSync(made, { recursive: true, force: true });
mkdirSync(made, { recursive: true });
run("plan", bridge, "-i", "bassoon", "--bars", "10", "--html", `${made}/bar-10.html`);
run("plan", "scores/first-steps.musicxml", "-i", "bassoon", "--bars", "1-4", "--html", `${made}/first-steps.html`);
run("compare", bridge, "-i", "bassoon", "--with", low, "--bars", "10", "--html", `${made}/bar-10-compared.html`);
run("plan", bridge, "-i", "bassoon", "--html", `${made}/plan.html`);
run("payoff", "scores/repertoires/low-keys.yaml", "-i", "bassoon", "--conversions",
  "interlinked-low-keys,low-key-rollers", "--samples", "0", "--html", `${made}/payoff.html`);
run("assign", "scores/rosters/alder-quintet.yaml", "-o", `${made}/sheets`);

const style = readFileSync(`${made}/plan.html`, "utf8").match(/<style>([\s\S]*?)<\/style>/)[1];
writeFileSync(`${made}/page.css`, style);

// README's picture stands by itself: the drawing as the program made it, with the colours and rules that it uses.
const { patterns, system } = lanes(readFileSync(`${made}/bar-10-compared.html`, "utf8"));
const [, width, height] = system.match(/viewBox="0 0 (\S+) (\S+)"/);
const rules = style.match(/:root \{[\s\S]*?\}|@media \(prefers-color-scheme: dark\) \{[\s\S]*?\} \}|\.drawn [^{]*\{[\s\S]*?\}/g);
writeFileSync(`${made}/lanes.svg`, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="-12 -10 ${+width + 24} ${+height + 20}">
<style>
${rules.join("\n")}
</style>
<rect x="-12" y="-10" width="100%" height="100%" fill="var(--paper)"/>
${patterns}
${system.replace("<svg ", `<svg width="${width}" height="${height}" `)}
</svg>
`);
