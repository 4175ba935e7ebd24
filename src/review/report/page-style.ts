/** The look of a page: light, dark and on paper. Contrast of text is at least 4.5 to 1 (WCAG 2.2, 1.4.3). */
export const PAGE_STYLE = `
:root{color-scheme:light dark;--paper:#fff;--ink:#1b1b1b;--soft:#575757;
--rule:#d5d5d5;--bar:#2f6690;--goal:#a3452f}
@media (prefers-color-scheme:dark){:root{--paper:#16181b;--ink:#ececec;--soft:#b3b3b3;
--rule:#44484d;--bar:#7fb2d8;--goal:#e39a83}}
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:1rem/1.5 system-ui,sans-serif}
main{max-width:60rem;margin:0 auto;padding:1rem}
h1{font-size:1.6rem;line-height:1.2}h2{font-size:1.2rem;margin-top:2rem}h3{font-size:1rem;margin-bottom:.2rem}
p.soft,caption,figcaption{color:var(--soft)}
caption,figcaption{text-align:left;font-size:.9rem;padding:.2rem 0}
figure{margin:.5rem 0}
.wide{overflow-x:auto}
table{border-collapse:collapse;width:100%;font-variant-numeric:tabular-nums}
th,td{text-align:left;padding:.25rem .6rem .25rem 0;
border-bottom:1px solid var(--rule);font-weight:400;vertical-align:top}
thead th{color:var(--soft);font-size:.9rem}
td{white-space:nowrap}td.say{white-space:normal}
svg{display:block;width:100%;height:auto}svg.track{width:7.5rem}
svg text{fill:var(--soft);font-size:11px}svg text.end{text-anchor:end}
svg rect,svg circle{fill:var(--bar)}
svg path{fill:none;stroke-width:1.5}
svg .grid{stroke:var(--rule);stroke-width:1}svg .line{stroke:var(--bar)}
svg .interval{stroke:var(--bar);stroke-width:5;stroke-opacity:.4}
svg .goal,svg .target{stroke:var(--goal)}svg .target{stroke-dasharray:4 3}
blockquote{margin:.2rem 0 .6rem;padding-left:.8rem;border-left:3px solid var(--rule);white-space:pre-wrap}
@page{size:A4;margin:16mm}
@media print{:root{color-scheme:light;--paper:#fff;--ink:#000;--soft:#444;
--rule:#bbb;--bar:#2f6690;--goal:#a3452f}
main{max-width:none;padding:0}figure,tr,blockquote{break-inside:avoid}h2,h3{break-after:avoid}.wide{overflow:visible}
body{font-size:10pt}}
`.trim();
