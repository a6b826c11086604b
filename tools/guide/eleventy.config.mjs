// Chapters in Markdown become build/guide/*.html, in the look of the program's own pages. What the program has drawn for the
// guide (made.mjs) lies in build/guide-made: {% lanes "name" %} puts its finger lanes here, {% plot "name" %} its first plot.
import { readFileSync } from "node:fs";

const made = new URL("../../build/guide-made/", import.meta.url);
const page = (name) => readFileSync(new URL(`${name}.html`, made), "utf8");

function only(found, what, name) {
  if (!found) throw new Error(`no ${what} in the page ${name}`);
  return found[0];
}

export default function (config) {
  config.addPassthroughCopy("pictures");
  config.addPassthroughCopy("guide.css");
  config.addPassthroughCopy({ "../../build/guide-made/page.css": "page.css" });
  config.addShortcode("lanes", (name) => {
    const text = page(name);
    const patterns = only(text.match(/<svg[^>]*class="patterns"[\s\S]*?<\/svg>/), "pattern", name);
    const system = only(text.match(/<svg class="system"[\s\S]*?<\/svg>/), "system", name);
    return `<figure class="scroll">${patterns}${system}</figure>`;
  });
  config.addShortcode("plot", (name) => {
    const text = page(name);
    return only(text.match(/<figure class="plot-figure">[\s\S]*?<\/figure>/), "plot", name);
  });
  config.addCollection("chapters", (all) => all.getFilteredByTag("chapter").sort((a, b) => a.data.order - b.data.order));
  // The info string of a block is `console exit=1` or `yaml file=NAME`; a reader sees the file's name.
  config.amendLibrary("md", (markdown) => {
    const fence = markdown.renderer.rules.fence;
    markdown.renderer.rules.fence = (tokens, at, options, env, self) => {
      const file = tokens[at].info.match(/file=(\S+)/);
      const before = file ? `<p class="file-name">${markdown.utils.escapeHtml(file[1])}</p>` : "";
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
