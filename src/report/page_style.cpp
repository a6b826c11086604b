#include "page_style.hpp"

namespace fingerway {

namespace {

// One accent colour, and no meaning by it alone: hatching, signs and words say the same. All text pairs have a contrast
// of at least 4.5 to 1 in both schemes.
constexpr std::string_view lanes_rules = R"css(
:root { color-scheme: light dark; --paper: #fbfaf6; --ink: #22304a; --soft: #566076; --line: #d9d6cc; --faint: #ebe8df;
  --held: #c9d4e3; --rests: #e6ebf2; --edge: #6b7890; --accent: #a5381f; }
@media (prefers-color-scheme: dark) {
  :root { --paper: #191d24; --ink: #e6e9f0; --soft: #a8b1c2; --line: #3b4350; --faint: #2a313c; --held: #3c4f70;
    --rests: #28344a; --edge: #8794ab; --accent: #f39a80; } }
.legend { list-style: none; padding: 0; margin: 14px 0 0; columns: 3 250px; font-size: 13px; color: var(--soft); }
.legend li { display: flex; gap: 8px; align-items: center; break-inside: avoid; margin: 0; }
.legend svg { flex: none; }
.patterns { position: absolute; }
svg.system { display: block; width: 100%; height: auto; margin: 0 0 18px; }
.system + .system { padding-top: 2px; }
.drawn text { font-family: "Noto Sans", "DejaVu Sans", "Helvetica Neue", Arial, sans-serif; fill: var(--ink); }
.drawn .bar-number { font-size: 9px; }
.drawn .note { font-size: 11.5px; font-weight: 600; }
.drawn text.bad { fill: var(--accent); }
.drawn .hand, .drawn .fold { font-size: 10px; fill: var(--soft); }
.drawn text.hand, .drawn text.fold { fill: var(--soft); }
.drawn .finger { font-size: 10px; text-anchor: end; }
.drawn text.need-name, .drawn text.bar-number { fill: var(--soft); }
.drawn .block-title { font-size: 11.5px; font-weight: 600; }
.drawn .touch { font-size: 10px; stroke: var(--held); stroke-width: 2.5; stroke-linejoin: round; paint-order: stroke;
  pointer-events: none; }
.drawn .small { font-size: 8px; }
.drawn .barline { stroke: var(--edge); stroke-width: 1; fill: none; }
.drawn .beat { stroke: var(--line); stroke-width: 1; stroke-dasharray: 2 3; fill: none; }
.drawn .lane { stroke: var(--faint); stroke-width: 1; fill: none; }
.drawn .slur { stroke: var(--edge); stroke-width: 1.1; fill: none; }
.drawn .differs-line { stroke: var(--ink); stroke-width: 1.6; fill: none; }
.drawn .held { fill: var(--held); stroke: var(--edge); stroke-width: .8; }
.drawn .rests { fill: var(--rests); }
.drawn .flicked { stroke-dasharray: 2 1.5; }
.drawn .teeth { stroke: var(--ink); stroke-width: 1; fill: none; }
.drawn .way { stroke: var(--ink); stroke-width: 1.8; fill: none; }
.drawn .way.idle { stroke-dasharray: 3 2.5; stroke-width: 1.3; }
.drawn .mark { fill: var(--ink); stroke: none; }
.drawn .ring { fill: var(--paper); stroke: var(--ink); stroke-width: 1.4; }
.drawn .stroke { stroke: var(--ink); stroke-width: 1.5; fill: none; }
.drawn .late .way, .drawn .late .ring, .drawn .late .stroke { stroke: var(--accent); }
.drawn .late .mark { fill: var(--accent); }
.drawn .hatch { fill: url(#hatching); stroke: var(--accent); stroke-width: .8; }
.drawn .hatch-line { stroke: var(--accent); stroke-width: 1.6; fill: none; }
.drawn .need-bar { fill: var(--edge); }
.drawn .late .need-bar { fill: var(--accent); }
.drawn .badge { fill: var(--paper); stroke: var(--ink); stroke-width: 1.1; }
.drawn .badge-number { font-size: 9px; font-weight: 700; text-anchor: middle; }
.drawn text.ceiling { font-size: 9px; font-weight: 600; fill: var(--accent); }
)css";

constexpr std::string_view page_rules = R"css(* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body { margin: 0; background: var(--paper); color: var(--ink);
  font: 15px/1.5 "Source Sans 3", "Noto Sans", "DejaVu Sans", "Helvetica Neue", Arial, sans-serif; }
main { max-width: 1080px; margin: 0 auto; padding: 28px 24px 48px; }
h1 { font: 600 30px/1.2 "Source Serif 4", "Noto Serif", "DejaVu Serif", Georgia, serif; margin: 0 0 4px; }
h2 { font: 600 19px/1.3 "Source Serif 4", "Noto Serif", "DejaVu Serif", Georgia, serif; margin: 34px 0 10px;
  padding-bottom: 4px; border-bottom: 1px solid var(--line); }
.subtitle { color: var(--soft); margin: 0 0 20px; font-size: 17px; }
.verdict { font-size: 17px; margin: 0 0 6px; }
.verdict strong { font-weight: 650; }
.facts { display: grid; grid-template-columns: repeat(auto-fit, minmax(330px, 1fr)); gap: 0 40px; margin: 18px 0 0; }
dl { margin: 0; display: grid; grid-template-columns: 8.2em 1fr; gap: 3px 12px; align-content: start; }
dt { color: var(--soft); }
dd { margin: 0; overflow-wrap: anywhere; }
table { border-collapse: collapse; width: 100%; font-size: 14px; }
th { text-align: left; font-weight: 600; color: var(--soft); border-bottom: 1px solid var(--edge); padding: 3px 10px 3px 0;
  vertical-align: bottom; }
td { border-bottom: 1px solid var(--faint); padding: 4px 10px 4px 0; vertical-align: top; }
td.number, th.number { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; }
tbody th { border-bottom-color: var(--faint); font-weight: 400; padding-top: 4px; vertical-align: top; }
th[scope="rowgroup"] { font-weight: 600; color: var(--ink); padding-top: 12px; border-bottom-color: var(--line); }
.key { font-variant-numeric: tabular-nums; }
.quiet { color: var(--soft); }
.warning { color: var(--accent); font-weight: 600; }
ol, ul { margin: 6px 0; padding-left: 1.5em; }
li { margin: 4px 0; }
a { color: inherit; text-decoration-color: var(--edge); text-underline-offset: 3px; }
a:focus-visible { outline: 2px solid var(--accent); outline-offset: 2px; }
.scroll { overflow-x: auto; }
.cautions { border: 1px solid var(--line); border-left: 4px solid var(--accent); padding: 4px 18px 8px; margin-top: 34px; }
.cautions h2 { border: 0; margin: 10px 0 2px; padding: 0; }
figure { margin: 0; }
figcaption { color: var(--soft); font-size: 14px; margin: 0 0 10px; }
.line { break-inside: avoid; margin: 0 0 14px; }
.engraved svg { display: block; width: 100%; height: auto; }
.engraved path, .engraved use, .engraved rect, .engraved polygon { stroke: currentColor; }
h3 { font: 600 15px/1.3 "Source Serif 4", "Noto Serif", "DejaVu Serif", Georgia, serif; margin: 16px 0 2px; }
svg.plot { display: block; width: 100%; max-width: 820px; height: auto; margin: 0 0 6px; }
.plot-figure { break-inside: avoid; margin: 0 0 16px; }
svg text.tick, svg text.row-name { font-size: 11px; }
svg text.tick { fill: var(--soft); }
svg text.point-name { font-size: 11px; font-weight: 600; }
.axis, .way-line { stroke: var(--edge); stroke-width: 1; fill: none; }
.way-line { stroke-width: 2.5; }
.grid { stroke: var(--faint); stroke-width: 1; fill: none; }
.front { stroke: var(--ink); stroke-width: 1.4; fill: none; }
.budget { stroke: var(--accent); stroke-width: 1.2; stroke-dasharray: 5 3; }
.asked { stroke: var(--ink); stroke-width: 1.4; stroke-dasharray: 2 2; }
.dot { fill: var(--ink); stroke: var(--ink); stroke-width: 1.4; }
.dot.hollow { fill: var(--paper); }
.halo { fill: none; stroke: var(--accent); stroke-width: 1.6; }
.changed-note { stroke: var(--edge); stroke-width: 1.2; }
.spoiled { stroke: var(--accent); stroke-width: 2; fill: none; }
@media (max-width: 700px) { main { padding: 18px 12px 32px; } .facts { grid-template-columns: 1fr; } }
@media print {
  :root { color-scheme: light; --paper: #fff; --ink: #16202f; --soft: #4a5468; --line: #cfccc2; --faint: #e4e1d8;
    --held: #ccd6e4; --rests: #e9edf3; --edge: #5f6b81; --accent: #96301a; }
  * { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
  body { font-size: 10pt; }
  main { max-width: none; padding: 0; }
  h1 { font-size: 20pt; } h2 { font-size: 13pt; margin-top: 16pt; break-after: avoid; }
  .subtitle, .verdict { font-size: 11pt; }
  .facts { grid-template-columns: repeat(auto-fit, minmax(260px, 1fr)); gap: 0 24px; }
  dl { grid-template-columns: 7em 1fr; }
  table { font-size: 8.5pt; } tr, li, .cautions { break-inside: avoid; } thead { display: table-header-group; }
  th[scope="rowgroup"] { break-after: avoid; }
  svg.system { break-inside: avoid; margin-bottom: 12pt; }
  .legend { break-inside: avoid; font-size: 8.5pt; }
  .scroll { overflow: visible; }
  a { text-decoration: none; }
}
@page { size: A4 portrait; margin: 14mm 13mm 15mm; }
)css";

}  // namespace

std::string page_style() { return std::string(lanes_rules) + std::string(page_rules); }

std::string_view page_lanes_style() { return lanes_rules; }

}  // namespace fingerway
