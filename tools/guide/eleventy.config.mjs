// Chapters in Markdown become build/guide/*.html, in the look of the program's own pages. What the program has drawn for the
// guide (made.mjs) lies in build/guide-made: {% lanes "name" %} puts its finger lanes here, {% legend "name" %} their legend,
// {% plot "name" %} its first plot.
import { readFileSync } from "node:fs";

import { lanes, legend, plot } from "./drawn.mjs";

const made = new URL("../../build/guide-made/", import.meta.url);
const page = (name) => readFileSync(new URL(`${name}.html`, made), "utf8");

export default function (config) {
  config.addPassthroughCopy("pictures");
  config.addPassthroughCopy("guide.css");
  config.addPassthroughCopy({ "../../src/page/icon.svg": "icon.svg" });
  config.addPassthroughCopy({ "../../build/guide-made/page.css": "page.css" });
  config.addShortcode("lanes", (name) => {
    const { patterns, system } = lanes(page(name));
    return `<figure class="scroll" tabindex="0">${patterns}${system}</figure>`;
  });
  config.addShortcode("legend", (name) => legend(page(name)));
  config.addShortcode("plot", (name) => plot(page(name)));
  config.addCollection("chapters", (all) => all.getFilteredByTag("chapter").sort((a, b) => a.data.order - b.data.order));
  config.amendLibrary("md", (markdown) => {
    markdown.set({ typographer: true });
    const fence = markdown.renderer.rules.fence;
    const escaped = markdown.utils.escapeHtml;
    // The info string of a block is `console exit=1` or `yaml file=NAME`. A reader sees the file's name, and what is typed
    // apart from what comes back.
    markdown.renderer.rules.fence = (tokens, at, options, env, self) => {
      const { info, content } = tokens[at];
      if (info.startsWith("console")) {
        const lines = content.trimEnd().split("\n").map((line) =>
          line.startsWith("$ ") ? `<b class="typed">${escaped(line.slice(2))}</b>` : line === "..." ? '<i>…</i>\n' : `${escaped(line)}\n`);
        return `<pre tabindex="0"><code>${lines.join("")}</code></pre>\n`;
      }
      const file = info.match(/file=(\S+)/);
      const before = file ? `<p class="file-name">${escaped(file[1])}</p>` : "";
      return before + fence(tokens, at, options, env, self);
    };
  });
  return {
    dir: { input: ".", includes: "_includes", output: "../../build/guide" },
    markdownTemplateEngine: "njk",
    htmlTemplateEngine: "njk",
    templateFormats: ["md", "njk"],
  };
}
