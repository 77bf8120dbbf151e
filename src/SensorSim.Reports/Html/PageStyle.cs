// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Html;

/// <summary>The style of a page: light, readable in grey, and made to be printed on A4.</summary>
internal static class PageStyle
{
    internal const string Text = """
        :root { color-scheme: light; }
        body { margin: 0; background: #fff; color: #202020; font: 15px/1.5 "DejaVu Sans", Verdana, sans-serif; }
        main { max-width: 1120px; margin: 0 auto; padding: 24px 20px 60px; }
        h1 { font-size: 26px; font-weight: normal; margin: 0 0 12px; border-bottom: 3px solid #0072b2; padding-bottom: 8px; }
        h2 { font-size: 20px; font-weight: normal; margin: 40px 0 10px; border-bottom: 1px solid #c2ccd2; padding-bottom: 4px; }
        h3 { font-size: 16px; margin: 24px 0 8px; }
        nav { font-size: 14px; margin-bottom: 20px; }
        nav ol { margin: 0; padding-left: 24px; columns: 2; }
        a { color: #00517f; }
        p, li { max-width: 900px; }
        p.lead { font-size: 17px; }
        p.caution { border-left: 5px solid #d55e00; padding: 6px 12px; background: #fbf3ec; }
        .file { color: #5a5a5a; font-size: 13px; margin-top: 4px; overflow-wrap: anywhere; }
        table { border-collapse: collapse; font-size: 13.5px; margin: 14px 0 0; max-width: 100%; }
        caption { text-align: left; padding-bottom: 6px; font-weight: bold; }
        th, td { border-bottom: 1px solid #d9dfe3; padding: 4px 10px; text-align: left; vertical-align: top; overflow-wrap: break-word; }
        td.n { white-space: nowrap; }
        th { background: #eef2f5; font-weight: normal; border-bottom: 2px solid #9aa7b0; }
        .n { text-align: right; font-variant-numeric: tabular-nums; }
        table.facts th { border-bottom: 1px solid #d9dfe3; width: 190px; }
        table.facts td { overflow-wrap: anywhere; }
        figure { margin: 18px 0 24px; }
        figure svg { display: block; box-sizing: border-box; width: 100%; height: auto; border: 1px solid #e6e6e6; }
        figcaption { font-size: 13.5px; margin-top: 6px; max-width: 1000px; }
        @page { size: A4; margin: 14mm 12mm; }
        @media print {
        body { font-size: 9.5pt; }
        main { max-width: none; padding: 0; }
        h1 { font-size: 17pt; } h2 { font-size: 13pt; margin-top: 20pt; } h3 { font-size: 11pt; }
        h2, h3, caption { break-after: avoid; }
        nav { display: none; }
        table { font-size: 7.5pt; }
        th, td { padding: 2pt 4pt; }
        thead { display: table-header-group; }
        tr, figure, table.whole, p.caution { break-inside: avoid; }
        figcaption, .file { font-size: 8pt; }
        * { -webkit-print-color-adjust: exact; print-color-adjust: exact; }
        }

        """;
}
