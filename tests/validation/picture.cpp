// The picture docs/co-against-air-ratio.svg.
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "sim/flame/co_map.hpp"
#include "tests/support/files.hpp"
#include "tests/validation/checks.hpp"

namespace quarterturn::validation {

std::string co_picture() {
    const auto natural = *load_gas(test::shipped(), "natural").value;
    const auto propane = *load_gas(test::shipped(), "propane").value;
    const CoMap ng(natural.mixture, dry_air(), BurnerDeck{});
    const CoMap lp(propane.mixture, dry_air(), BurnerDeck{});
    constexpr double left = 60, right = 700, top = 20, bottom = 380, first = 0.95, last = 1.75;
    const auto x = [&](double l) { return left + (right - left) * (l - first) / (last - first); };
    const auto y = [&](double ppm) { return bottom - (bottom - top) * std::log10(std::clamp(ppm, 1.0, 10000.0)) / 4; };
    const auto y2 = [&](double pct) { return bottom - (bottom - top) * pct / 16; };
    const auto at = [](double v) {
        char t[24];
        std::snprintf(t, sizeof t, "%.1f", v);
        return std::string(t);
    };
    std::string out =
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 930 430\" font-family=\"Lato, DejaVu Sans, "
        "sans-serif\" font-size=\"14\">"
        "<rect width=\"930\" height=\"430\" fill=\"#FCF9F0\"/>";
    for (const double ppm : {1.0, 10.0, 100.0, 1000.0, 10000.0}) {
        out += "<path d=\"M60 " + at(y(ppm)) + "H700\" stroke=\"#9A917C\" stroke-width=\"0.6\"/><text x=\"54\" y=\"" +
               at(y(ppm) + 5) + "\" text-anchor=\"end\">" + std::to_string(static_cast<int>(ppm)) + "</text>";
    }
    for (double l = 1.0; l < 1.76; l += 0.1)
        out += "<path d=\"M" + at(x(l)) + " 20V380\" stroke=\"#9A917C\" stroke-width=\"0.4\"/><text x=\"" + at(x(l)) +
               "\" y=\"400\" text-anchor=\"middle\">" + at(l) + "</text>";
    out +=
        "<text x=\"380\" y=\"422\" text-anchor=\"middle\">air ratio</text><text x=\"64\" y=\"16\">CO, ppm dry (heavy "
        "lines); CO₂, % dry, 0 to 16 from bottom to top (dotted)</text>";
    struct Line {
        const char* name;
        const CoMap* map;
        const Mixture* gas;
        double load;
        const char* style;
    };
    double label = 40;
    for (const Line& l :
         {Line{"natural gas, high fire", &ng, &natural.mixture, 1.0, "stroke=\"#22262B\" stroke-width=\"2.6\""},
          Line{"natural gas, low fire", &ng, &natural.mixture, 0.2,
               "stroke=\"#22262B\" stroke-width=\"2\" stroke-dasharray=\"9 4\""},
          Line{"propane, high fire", &lp, &propane.mixture, 1.0, "stroke=\"#B8400E\" stroke-width=\"2.6\""},
          Line{"propane, low fire", &lp, &propane.mixture, 0.2,
               "stroke=\"#B8400E\" stroke-width=\"2\" stroke-dasharray=\"9 4\""}}) {
        std::string d;
        double out_at = 0;
        for (double a = first; a <= last + 1e-9; a += 0.01) {
            const auto p = l.map->at(a, l.load);
            if (a > 1.2 && !p.burns()) {
                out_at = a;
                break;
            }
            d += (d.empty() ? "M" : "L") + at(x(a)) + " " + at(y(p.co_ppm_dry));
        }
        out += "<path d=\"" + d + "\" fill=\"none\" " + l.style + "/>";
        if (out_at > 0)
            out += "<text x=\"" + at(x(out_at)) + "\" y=\"" + at(y(l.map->at(out_at, l.load).co_ppm_dry) + 5) +
                   "\">× out</text>";
        out += "<path d=\"M715 " + at(label) + "h40\" " + l.style + "/><text x=\"762\" y=\"" + at(label + 5) + "\">" +
               l.name + "</text>";
        label += 24;
    }
    for (const Mixture* m : {&natural.mixture, &propane.mixture}) {
        std::string d;
        for (double a = 1.0; a <= last + 1e-9; a += 0.05)
            d += (d.empty() ? "M" : "L") + at(x(a)) + " " + at(y2(balance(*m, dry_air(), a, 0, 0).co2_dry_pct));
        out += "<path d=\"" + d + "\" fill=\"none\" stroke=\"" + (m == &natural.mixture ? "#22262B" : "#B8400E") +
               "\" stroke-width=\"1.4\" stroke-dasharray=\"2 4\"/>";
    }
    return out + "</svg>\n";
}

}  // namespace quarterturn::validation
