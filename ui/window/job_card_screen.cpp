#include "ui/window/job_card_screen.hpp"

#include <algorithm>
#include <array>

#include "ui/window/site_drawing.hpp"

namespace quarterturn::window {

namespace {

struct Caution {
    const char* name;
    const char* words;
};
constexpr std::array<Caution, 6> kCautions{{
    {N_("Carbon monoxide"), N_("no smell, no warning. Above 35 ppm in the room: out, and air.")},
    {N_("Gas leak"), N_("tap shut, windows open, no switch, call from outside.")},
    {N_("Gas that sinks"), N_("heavier than air: it lies on floors, in cellars and drains. Smell low down.")},
    {N_("Hot surfaces"), N_("chamber, flue and probe burn skin for minutes after.")},
    {N_("Scalding water"), N_("a forced high fire makes more than 60 °C.")},
    {N_("Mains voltage"), N_("fan and board are live inside the case: switch off first.")},
}};

constexpr std::size_t kSinks = 2;  //!< of such a gas only

double cautions(Page& p, const JobCard& card, const Rect& r, bool roomy) {
    Canvas& d = p.d;
    d.text(r.x + 16, r.y + 26, tr("Around a real one"), 17, Weight::semibold, d.c.ink);
    double y = r.y + (roomy ? 56 : 48);
    for (const Caution& c : kCautions) {
        if (&c == &kCautions[kSinks] && !card.gas_sinks) continue;
        warning_sign(d, r.x + 28, y - 4, 16, d.c.ink);
        if (roomy) {
            d.text(r.x + 50, y, tr(c.name), 15, Weight::semibold, d.c.ink);
            y = d.wrapped(r.x + 50, y + 18, tr(c.words), r.w - 64, 14, Weight::regular, d.c.ink) + 4;
        } else {
            y = d.wrapped(r.x + 50, y, say("{0}: {1}", tr(c.name), tr(c.words)), r.w - 64, 13, Weight::regular,
                          d.c.ink) +
                1;
        }
    }
    d.line(r.x, y - 12, r.right(), y - 12, d.c.ink, kThin);
    const double foot = d.wrapped(r.x + 16, y + 8,
                                  tr("On a real job the appliance's own instructions, local codes and your licence "
                                     "decide. This bench is practice and replaces none."),
                                  r.w - 32, 13, Weight::regular, d.c.ink);
    d.stroke(box(r.x, r.y, r.w, foot - r.y - 6), d.c.ink, kCut, true);
    return foot - 6;
}

//! Coached or alone; an assessment is what it is.
double how(Page& p, const JobCard& card, const JobCardCalls& calls, const Rect& r) {
    Canvas& d = p.d;
    d.text(r.x + 16, r.y + 26, tr("How you want it"), 17, Weight::semibold, d.c.ink);
    struct Cell {
        const char* words;
        bool on, can;
        Help help;
    };
    const bool coached = card.papers.coached;
    const std::array<Cell, 3> cells{{{tr("Coached"), coached && card.help == Help::coached, coached, Help::coached},
                                     {tr("Alone"), coached && card.help == Help::alone, coached, Help::alone},
                                     {tr("Assessment"), !coached, !coached, Help::alone}}};
    double x = r.x + 16;
    const double w = (r.w - 32) / 3;
    for (const Cell& c : cells) {
        const Rect cell{x, r.y + 40, w, 30};
        d.rect(cell, c.on ? d.c.inverse : c.can ? d.c.sheet : d.c.paper);
        d.stroke(box(cell), c.can ? d.c.ink : d.c.ink2, kSeen, true, c.can ? Dash{} : Dash{4, 3});
        d.text(cell.centre().x, cell.y + 20, c.words, 14, Weight::semibold,
               c.on    ? d.c.on_inverse
               : c.can ? d.c.ink
                       : d.c.ink2,
               Align::middle);
        if (c.can && coached)
            p.target(cell, std::string("help ") + (c.help == Help::coached ? "coached" : "alone"),
                     [choose = calls.choose, h = c.help] { choose(h); });
        x += w;
    }
    const std::string words =
        card.sealed ? tr("No hints. What is still open is not listed. Your marks come from your instructor.")
        : !coached  ? tr("No hints. What is still open is not listed. Marks at the end, and only then.")
        : card.help == Help::coached
            ? tr("H gives the next sound step for a point. Before you leave, what is still open is listed.")
            : tr("No hints, nothing is listed. As it would be on the job.");
    double y = d.wrapped(r.x + 16, r.y + 92, words, r.w - 32, 14, Weight::regular, d.c.ink);
    y = d.wrapped(r.x + 16, y + 4,
                  say("To pass: {0} of 100 points, {1} % of each competency, nothing unsafe and nothing false. {2}",
                      words::fixed(card.papers.pass_pct), words::fixed(card.least_pct), card.weights),
                  r.w - 32, 13, Weight::regular, d.c.ink2);
    d.stroke(box(r.x, r.y, r.w, y - r.y), d.c.ink, kSeen, true);
    return y;
}

//! Who called, what was done before, what is asked. Returns its foot.
double story(Page& p, const JobCard& card, const Rect& r, bool roomy) {
    Canvas& d = p.d;
    const double x = r.x + 26;
    const double w = r.w - 52;
    const double label = w > 520 ? 140 : 0;
    d.text(r.right() - 46, r.y + 42, tr("Job card"), 15, Weight::italic, d.c.ink2, Align::right);
    double y = r.y + 44;
    d.text(x, y, d.fitted(card.papers.title, w - 90, roomy ? 26 : 20, Weight::semibold), roomy ? 26 : 20,
           Weight::semibold, d.c.ink);
    d.line(x, y + 12, x + w, y + 12, d.c.ink, kSeen);
    y += 38;
    const auto part = [&](const char* name, const std::string& text, Weight weight, double size) {
        if (text.empty()) return;
        d.text(x, y, tr(name), 15, Weight::semibold, d.c.ink);
        if (label <= 0) y += 20;
        y = d.wrapped(x + label, y, text, w - label, size, weight, d.c.ink) + 4;
        d.line(x, y - 10, x + w, y - 10, d.c.rule, kThin);
        y += 12;
    };
    std::string text = card.papers.story;
    while (!text.empty() && (text.back() == '\n' || text.back() == ' ')) text.pop_back();
    for (char& c : text)
        if (c == '\n') c = ' ';
    part(N_("What they say"), text, Weight::italic, roomy ? 16 : 14);
    std::vector<std::string> before;
    if (card.papers.line_worked_on) before.emplace_back(tr("the gas line was worked on"));
    if (card.papers.valve_new) before.emplace_back(tr("a new gas valve was fitted"));
    part(N_("Done before"),
         before.empty() ? tr("nothing is written down") : words::sentence_case(words::listed(before)) + ".",
         Weight::regular, roomy ? 16 : 14);
    part(N_("Asked of you"),
         card.papers.conversion_asked
             ? tr("Convert it, set it, and leave it fit for service with a sheet; or leave it off and say why.")
             : tr("Find out what it needs. Leave it fit for service, or leave it off and say why. Both fires as found "
                  "and "
                  "as left, in writing."),
         Weight::semibold, roomy ? 16 : 14);
    part(N_("Appliance"), card.papers.appliance, Weight::regular, 15);
    part(N_("Gas"), card.papers.supply, Weight::regular, 15);
    part(N_("Site"), card.site, Weight::regular, 15);
    if (!card.aim.empty()) part(N_("Aim"), card.aim, Weight::regular, 15);
    return y;
}

//! The same on its sheet of paper, which is as high as it has to be.
double story_sheet(Page& p, const JobCard& card, const Rect& r, bool roomy) {
    Canvas sketch = p.d.sketch();
    std::vector<Target> unused;
    Scroll none;
    Page draft{sketch, p.l, unused, none};
    const double foot = std::max(r.bottom(), story(draft, card, r, roomy) + 10);
    paper(p.d, {r.x, r.y, r.w, foot - r.y}, "", 18);
    const double told = story(p, card, r, roomy);
    // What room is left shows the place.
    constexpr double least = 150, most = 240;
    if (const double high = std::min(most, foot - told - 14); high >= least)
        site_drawing(p.d, {r.x + 26, foot - 26 - high + 12, r.w - 52, high},
                     say("a room of {0} m\u00b3", words::fixed(card.room_m3)));
    return foot;
}

}  // namespace

void job_card_screen(Page& p, const JobCard& card, const JobCardCalls& calls) {
    Canvas& d = p.d;
    const std::string clock = words::time_of_day(card.clock_s).substr(0, 5);
    // What one goes on with stays in sight; the rest is scrolled where it is taller than the window.
    const double go_w = p.l.w >= 900 ? 440.0 : std::min(300.0, p.l.w - 56);
    const Rect go{p.l.w - 28 - go_w, p.l.h - 58, go_w, 46};
    const Rect all{16, 44, p.l.w - 32, go.y - 52};
    const bool wide = p.l.w >= 900;
    const bool roomy = p.l.h >= 640;
    scrolled(p, all, [&](Page& q, double y) {
        const double w = all.w - 24;
        const double x = all.x + 12;
        y += 12;
        if (!wide) {
            y = story_sheet(q, card, {x, y, w, 0}, false) + 12;
            y = how(q, card, calls, {x, y, w, 0}) + 12;
            return cautions(q, card, {x, y, w, 0}, true) + 8;
        }
        const double side = 440;
        const double left = story_sheet(q, card, {x, y, w - side - 20, all.h - 24}, roomy);
        const double sx = x + w - side;
        const double right = how(q, card, calls, {sx, cautions(q, card, {sx, y, side, 0}, roomy) + 12, side, 0});
        return std::max(left, right) + 8;
    });
    button(d, go, say("Start at {0}", clock), "Enter", ButtonState::held, 18);
    p.target(go, "start", calls.start);
    if (card.minutes > 0) {
        const std::string about = card.time_limit > 0
                                      ? say("{0} minutes, then it stands as it is.", words::fixed(card.time_limit))
                                      : say("About {0} minutes.", words::fixed(card.minutes));
        const std::string more =
            card.time_limit > 0
                ? say("{0} The clock can be sped up, never skipped.", about)
                : say("{0} The clock can be sped up, never skipped; much longer costs a little.", about);
        const bool room = d.width(more, 13, Weight::regular) < go.x - 40;
        if (go.x > 40 + d.width(about, 13, Weight::regular))
            d.text(28, go.centre().y + 5, room ? more : about, 13, Weight::regular, d.c.ink2);
    }
    std::vector<BarButton> buttons;
    if (card.papers.coached) buttons.push_back({tr("What if"), "V", "what if", calls.what_if});
    buttons.push_back({card.sealed ? tr("Back") : tr("Back to the shelf"), "Esc", "back", calls.back});
    page_bar(p, tr("Job card"), tr("practice, not a real heater"), buttons);
}

}  // namespace quarterturn::window
