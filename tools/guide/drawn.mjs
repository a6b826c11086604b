// What the program has drawn, cut out of its pages.
function only(page, pattern, what) {
  const found = page.match(pattern);
  if (!found) throw new Error(`no ${what} in the page`);
  return found[0];
}

export const lanes = (page) => ({
  patterns: only(page, /<svg[^>]*class="patterns[\s\S]*?<\/svg>/, "hatching"),
  system: only(page, /<svg class="system[\s\S]*?<\/svg>/, "finger lanes"),
});
export const legend = (page) => only(page, /<ul class="legend">[\s\S]*?<\/ul>/, "legend");
export const plot = (page) => only(page, /<figure class="plot-figure">[\s\S]*?<\/figure>/, "plot");
