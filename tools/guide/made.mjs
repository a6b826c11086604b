// Lets the program draw what the chapters show: node made.mjs PROGRAM. Leaves pages and their style in build/guide-made.
import { execFileSync } from "node:child_process";
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const program = process.argv[2];
const project = fileURLToPath(new URL("../../", import.meta.url));
const made = `${project}build/guide-made`;
const round = "scores/lowland-round.musicxml";
const low = "bassoon+interlinked-low-keys";

// Exit code 1 means done, but something does not fit: that is what some pictures are to show.
function run(...words) {
  try {
    execFileSync(program, words, { cwd: project, stdio: ["ignore", "ignore", "pipe"] });
  } catch (error) {
    if (error.status !== 1) throw new Error(`fingerway ${words.join(" ")}\n${error.stderr}`);
  }
}

rmSync(made, { recursive: true, force: true });
mkdirSync(made, { recursive: true });
run("plan", round, "-i", "bassoon", "--bars", "10", "--html", `${made}/bar-10.html`);
run("plan", "scores/first-steps.musicxml", "-i", "bassoon", "--bars", "1-4", "--html", `${made}/first-steps.html`);
run("compare", round, "-i", "bassoon", "--with", low, "--bars", "10", "--html", `${made}/bar-10-compared.html`);
run("plan", round, "-i", "bassoon", "--html", `${made}/plan.html`);
run("payoff", "scores/repertoires/one-season.yaml", "-i", "bassoon", "--conversions",
  "interlinked-low-keys,low-key-rollers", "--samples", "0", "--html", `${made}/payoff.html`);
run("assign", "scores/rosters/alder-street.yaml", "-o", `${made}/sheets`);

const style = readFileSync(`${made}/plan.html`, "utf8").match(/<style>([\s\S]*?)<\/style>/);
writeFileSync(`${made}/page.css`, style[1]);
