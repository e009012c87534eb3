/** What the sheet has beyond the page: boxes to tick and room to write. */
export const TRIAL_STYLE = `
h3{font-size:1.05rem;margin:1rem 0 .2rem}
.safety{border:4px solid #111;padding:.2rem 1rem;margin:.8rem 0}
.safety h2{margin:.4rem 0 0}
.safety ol{margin:.2rem 0;padding-left:1.6rem}
.safety li{margin:.35rem 0}
.caution{border-left:8px solid #111;padding:.1rem .8rem;font-weight:600}
.checks{list-style:none;padding:0}
.checks li{padding-left:2rem;margin:.35rem 0;position:relative}
.checks li::before{content:"";position:absolute;left:0;top:.15em;width:1.1rem;height:1.1rem;border:2px solid #111}
.sheet table,.faults table{width:100%}
.sheet caption,.faults caption{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.sheet tbody tr{height:2.5rem}
.sheet th,.sheet td{vertical-align:middle}
.sheet thead th{white-space:nowrap}
.sheet td:nth-child(2){min-width:14rem}
.sheet td:nth-child(3),.sheet td:nth-child(4){white-space:nowrap;width:1%}
.sheet th[scope=row],.faults thead th:not(:first-child){font-family:ui-monospace,"DejaVu Sans Mono",monospace;font-size:.86em}
.sheet th[scope=row]{white-space:nowrap;width:1%}
.sheet td:last-child{min-width:8.5rem;width:8.5rem;border:1px solid #111;padding-left:.5rem;white-space:nowrap}
.ranked td:first-of-type{font-weight:600;white-space:nowrap}
@media print{
h2{margin:2mm 0 .5mm}
h3{font-size:9pt;margin:1.6mm 0 .4mm;break-after:avoid}
.safety{padding:.5mm 3mm;margin:1.2mm 0}
.safety h2{margin:0}
.safety ol{margin:.4mm 0;padding-left:5mm}
.safety li,.checks li{margin:.5mm 0}
.checks{columns:2;column-gap:6mm;padding:0}
.checks li{padding-left:5.5mm;break-inside:avoid}
.checks li::before{width:3mm;height:3mm;border-width:1.2pt}
.caution{margin:.6mm 0;border-left-width:5px;break-after:avoid}
.caution + p{break-after:avoid}
.sheet .scroll,.faults .scroll{margin:.4mm 0}
.sheet table,.faults table{break-inside:auto}
.sheet tbody tr{height:6mm}
.sheet tr,.faults tr{break-inside:avoid}
.sheet td:nth-child(2){min-width:0}
.sheet thead th{padding:0 3mm 0 0}
.sheet th[scope=row]{font-size:6.6pt;width:33mm;padding-right:2mm}
.sheet td:nth-child(3){width:17mm}
.sheet td:nth-child(4){width:31mm}
.sheet td:last-child{min-width:27mm;width:27mm;padding-left:2mm}
.faults table{font-size:6.8pt;line-height:1.15}
.faults th,.faults td{padding:.1mm 2mm .1mm 0}
.faults thead th:not(:first-child){font-size:6.2pt}
}
`;

/** The short sheet goes on two pages: safety, what is ticked off and the looks; then the readings. */
export const TWO_PAGES = `
@media print{
body{font-size:7.8pt;line-height:1.22}
h2{margin:1.2mm 0 0;font-size:10pt}
p{margin:.5mm 0}
.still table{width:100%}
.still caption{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
}
`;
