#include "ui/report/page.hpp"

#include <algorithm>

#include "sim/files/output.hpp"
#include "ui/report/table.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::report {

std::string page_head(const std::string& title) {
    return "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
           "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">"
           "<meta name=\"viewport\" content=\"width=device-width\">" +
           std::string(files::kPageMark) + "<title>" + html(title) +
           "</title><style>\n"
           "body{font:15px/1.45 Lato,\"DejaVu "
           "Sans\",sans-serif;color:#22262b;background:#f4eddd;max-width:960px;margin:2em auto;padding:0 1em}\n"
           "h1{font-size:26px;margin:0 0 .2em}h2{font-size:18px;margin:1.6em 0 .3em}h3{font-size:15px;margin:.8em 0 "
           ".2em}\n"
           "table{border-collapse:collapse;width:100%;background:#fcf9f0}\n"
           "td,th{border-bottom:1px solid #9a917c;padding:4px "
           "8px;text-align:left;vertical-align:top}td.n,th.n{white-space:nowrap;text-align:right}\n"
           "p.caution{border:2px solid #22262b;padding:.5em .8em;background:#fcf9f0}\n"
           "p.result{font-size:19px}.lost{font-style:italic}tr.crit td{background:#22262b;color:#fcf9f0}tr.crit "
           "a{color:inherit}\n"
           "ol.practise li{margin:.5em 0}.two{display:grid;grid-template-columns:1fr 1fr;gap:16px}\n"
           ".quiet{color:#5b564a}.off{background:#22262b;color:#fcf9f0;padding:0 "
           ".3em}svg{width:100%;background:#fcf9f0;border:1px solid #22262b}svg "
           "text{font-size:13px;fill:#22262b}.axis{stroke:#22262b}\n"
           ".shown{fill:none;stroke:#22262b;stroke-width:2.4}.true{fill:none;stroke:#22262b;stroke-width:1.3;stroke-"
           "dasharray:2 4}\n"
           ".band{fill:#cfe0d3;stroke:#2e5e49;stroke-width:1.2}.limit{stroke:#22262b;stroke-width:1.2;stroke-dasharray:"
           "8 4}\n"
           ".mark{stroke:#9a917c;stroke-width:1}line.turn{stroke:#b8400e;stroke-width:1.4}svg "
           "text.turn{fill:#b8400e}.bar{fill:#22262b}.barbox{fill:none;stroke:#22262b}\n"
           ".wide{overflow-x:auto}.matrix th.up{vertical-align:bottom;height:150px;padding:4px 2px}"
           ".matrix th.up span{writing-mode:vertical-rl;transform:rotate(180deg);font-weight:normal}"
           ".matrix th{vertical-align:bottom}.matrix td{white-space:nowrap}.matrix sub{color:#5b564a}"
           "svg.sign,td svg.sign{width:14px;height:14px;border:0;background:none;vertical-align:-2px}\n"
           "td svg{width:140px;height:12px;border:0;background:none}\n"
           "@page{size:A4;margin:11mm}\n"
           "@media print{body{background:#fff;margin:0;padding:0;max-width:none;font-size:10.5px;line-height:1.3}"
           "h1{font-size:17px}h2{font-size:12.5px;margin:.7em 0 .2em}h3{font-size:11px;margin:.4em 0 .1em}"
           "p,ul,ol{margin:.3em 0}ol.practise li{margin:.2em 0}p.result{font-size:13px}td,th{padding:1.5px 5px}"
           "p.caution{padding:.2em .5em}table,svg,p.caution{background:#fff}svg text{font-size:12px}"
           "svg{max-height:66mm}td "
           "svg{max-height:none}.wide{overflow:visible}.matrix{font-size:9px}.matrix td,.matrix th{padding:1px "
           "2px}.matrix "
           "th.up{height:110px}.screen,tr.kept{display:none}h2{break-after:avoid}tr,svg{break-inside:avoid}}\n@media("
           "max-width:640px){"
           "body{margin:1em "
           "auto}.bars{display:none}.fold{display:block;overflow-x:auto}.two{grid-template-columns:1fr}}"
           "\n"
           "</style></head><body>\n";
}

std::string page_foot() { return "</body></html>\n"; }

std::string share_bar(double share) {
    return "<svg viewBox=\"0 0 140 12\" aria-hidden=\"true\"><rect class=\"bar\" x=\"1\" y=\"1\" width=\"" +
           fixed(138 * std::clamp(share, 0.0, 1.0), 1) +
           "\" height=\"10\"/><rect class=\"barbox\" x=\"1\" y=\"1\" width=\"138\" height=\"10\"/></svg>";
}

std::string write_page(const std::string& path, const std::string& text, bool force) {
    if (const std::string why = files::output_problem(path, files::OutputKind::page, {}, force); !why.empty())
        return path + ":1:1: " + why;
    return files::write_output(path, text);
}

}  // namespace quarterturn::report
