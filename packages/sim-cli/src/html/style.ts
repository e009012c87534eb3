/** Dark on light, one column, useful from 360 px; on paper A4 without the controls. */
export const STYLE = `
:root{color-scheme:light dark;--paper:#fff;--ink:#111;--link:#0b4f85;--rule:#bbb;--bad:#fdf0e6;--field:#fff}
@media screen and (prefers-color-scheme:dark){:root{--paper:#15181b;--ink:#eceff1;--link:#8ec5f2;--rule:#555;--bad:#3a2a1d;--field:#22272b}svg{background:#fff;border-radius:.3rem}}
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:17px/1.45 system-ui,"Segoe UI","DejaVu Sans",sans-serif;overflow-wrap:anywhere}
main,header,footer{max-width:68rem;margin:0 auto;padding:0 1rem}
h1{font-size:1.7rem;line-height:1.2;margin:1rem 0 .3rem}
h2{font-size:1.3rem;margin:1.6rem 0 .4rem}
a{color:var(--link)}
:focus-visible{outline:3px solid var(--link);outline-offset:2px}
svg{display:block;width:100%;height:auto}
figure{margin:.5rem 0}
figcaption{margin:.3rem 0}
.narrow{display:none}
.answers{display:grid;gap:.8rem;grid-template-columns:repeat(3,1fr);margin:.8rem 0}
.answers article,#may{border:3px solid var(--ink);border-radius:.6rem;padding:.4rem .8rem;background:var(--paper)}
.answers article.bad,#may.bad{border-style:double;border-width:8px;border-radius:0;background:var(--bad)}
#may .word{font-size:1.35rem;font-weight:700;line-height:1.2;margin:.2rem 0}
#may p{margin:.2rem 0}
.first{display:grid;grid-template-columns:1.75fr 1fr;gap:0 1.2rem;align-items:start}
.first .answers{grid-template-columns:1fr}
.first h2{margin-top:.6rem}
.wrong{color:var(--ink);border-left:6px solid var(--ink);padding-left:.5rem;font-weight:600;margin:.2rem 0}
.answers h2{font-size:1rem;margin:0;font-weight:600}
.answers .word{font-size:1.3rem;font-weight:700;line-height:1.15;margin:.2rem 0}
.answers p{margin:.3rem 0}
.warn{border-left:8px solid var(--ink);padding:.2rem .8rem;margin:.8rem 0}
.scroll{overflow-x:auto;margin:.6rem 0}
table{border-collapse:collapse;font-size:.92rem;overflow-wrap:break-word}
.assumed{columns:2 24rem;font-size:.85rem;padding-left:1.1rem}
.assumed b{font-weight:600}
caption{text-align:left;font-weight:600;padding:.2rem 0}
th,td{text-align:left;padding:.15rem .7rem .15rem 0;border-bottom:1px solid var(--rule);vertical-align:top;font-weight:400;font-variant-numeric:tabular-nums}
thead th{font-weight:600}
.scroll tbody th{min-width:6rem}
.scroll td{min-width:3.4rem}
details{margin:.4rem 0}
summary{cursor:pointer}
[data-sure=middle] .sure,[data-sure=bad] .sure-band,:root:not([data-sure=bad]) .sure-bad{display:none}
.sure{font-weight:600}
form{border:2px solid var(--link);border-radius:.6rem;padding:.3rem 1rem .8rem;margin:1rem 0}
.controls{display:grid;gap:.6rem;grid-template-columns:repeat(auto-fill,minmax(13rem,1fr))}
label{display:block;font-weight:600}
input,select,button{font:inherit;padding:.35rem .4rem;width:100%;border:1px solid #777;border-radius:.3rem;background:var(--field);color:var(--ink)}
button{background:#0b4f85;color:#fff;cursor:pointer}
[data-covered]{position:relative}
[data-covered]>*{opacity:.06}
[data-covered]::before{content:attr(data-covered);display:block;position:sticky;top:1rem;z-index:1;border:3px dashed var(--ink);background:var(--paper);padding:.6rem .8rem;margin:.4rem 0;font-weight:700}
#altered{border-left:8px solid var(--ink);padding:.2rem .8rem;font-weight:600}
.unseen{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.card{border:2px dashed var(--ink);padding:2.5mm 3.5mm;width:148mm;max-width:100%;font-size:10pt;line-height:1.17}
.card h3{margin:0;font-size:13pt}
.card .where,.card .caution{margin:.5mm 0;font-size:10pt}
.card .columns{display:grid;grid-template-columns:1fr 42mm;gap:4mm}
.card table{width:100%;font-size:10pt;align-self:start}
.card th{font-weight:600}
.card tbody th{white-space:nowrap}
.card th,.card td{padding:.6mm 2mm .6mm 0}
@media (max-width:900px){.first{grid-template-columns:1fr}}
@media (max-width:640px){.wide{display:none}.narrow{display:block}.answers{grid-template-columns:1fr}h1{font-size:1.35rem}.card .columns{grid-template-columns:1fr}}
@media print{
@page{size:A4;margin:11mm 12mm}
body{font-size:8.6pt;line-height:1.25}
main,header,footer{max-width:none;padding:0}
form,.screen,details.same{display:none}
h1{font-size:15pt;margin:0 0 1mm}
h2{font-size:11.5pt;margin:2.5mm 0 .8mm;break-after:avoid}
p,figcaption{margin:.8mm 0}
figure,article,.card,table{break-inside:avoid}
figure{margin:1mm 0}
table{font-size:7.6pt}
th,td{padding:.2mm 3mm .2mm 0}
.scroll{overflow:visible;margin:1mm 0}
.scroll tbody th,.scroll td{min-width:0}
.answers{grid-template-columns:repeat(3,1fr);gap:2mm;margin:1.5mm 0}
.answers article{padding:1mm 2mm}
.answers h2{font-size:8.6pt}
.answers .word{font-size:13pt}
.wide{display:block;max-width:none}.narrow{display:none}
#pull .wide,#load .wide,#day .wide,#energy .wide{display:none}
#pull .narrow,#load .narrow,#day .narrow,#energy .narrow{display:block}
#pull figure,#load figure,#day figure,#energy figure{display:grid;grid-template-columns:70mm 1fr;gap:4mm}
#load-body{display:grid;grid-template-columns:70mm 1fr;gap:4mm}
#load figure{display:block}
.assumed{font-size:6.4pt;line-height:1.15;columns:3;margin:1mm 0;padding-left:3mm}
ul{margin:1mm 0;padding-left:5mm}
.card .columns{grid-template-columns:1fr 42mm}
.first{display:block}.first .answers{grid-template-columns:repeat(3,1fr)}
#may .word{font-size:12pt}
.card,.card table,.card .where,.card .caution{font-size:10pt}
.warn{margin:1.5mm 0}
a{color:inherit;text-decoration:none}
.answers a,.warn a{display:none}
}
`;
