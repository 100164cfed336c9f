#include "ui/window/job_card_screen.hpp"

#include <algorithm>
#include <array>

namespace quarterturn::window {

namespace {

struct Caution {
    const char* name;
    const char* words;
};
constexpr std::array<Caution, 5> kCautions{{
    {N_("Carbon monoxide"), N_("no smell, no warning. Above 35 ppm in the room: out, and air.")},
    {N_("Gas leak"), N_("tap shut, windows open, no switch, call from outside.")},
    {N_("Hot surfaces"), N_("chamber, flue and probe burn skin for minutes after.")},
    {N_("Scalding water"), N_("a forced high fire makes more than 60 °C.")},
    {N_("Mains voltage"), N_("fan and board are live inside the case: switch off first.")},
}};

double cautions(Page& p, const Rect& r, bool roomy) {
    Canvas& d = p.d;
    d.text(r.x + 16, r.y + 26, tr("Around a real one"), 17, Weight::semibold, d.c.ink);
    double y = r.y + (roomy ? 56 : 48);
    for (const Caution& c : kCautions) {
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
    d.rect(r, d.c.sheet);
    d.stroke(box(r), d.c.ink, kSeen, true);
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
        !coached ? tr("No hints. What is still open is not listed. Marks at the end, and only then.")
        : card.help == Help::coached
            ? tr("H gives the next sound step for a point. Before you leave, what is still open is listed.")
            : tr("No hints, nothing is listed. As it would be on the job.");
    double y = d.wrapped(r.x + 16, r.y + 92, words, r.w - 32, 14, Weight::regular, d.c.ink);
    y = d.wrapped(r.x + 16, y + 4,
                  say("To pass: {0} of 100 points, {1} % of each competency, nothing unsafe and nothing false. {2}",
                      words::fixed(card.papers.pass_pct), words::fixed(card.least_pct), card.weights),
                  r.w - 32, 13, Weight::regular, d.c.ink2);
    return y;
}

double story(Page& p, const JobCard& card, const Rect& r, bool roomy) {
    Canvas& d = p.d;
    paper(d, r, "", 18);
    const double x = r.x + 26;
    const double w = r.w - 52;
    const double label = roomy ? 140 : 0;
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
    if (!card.aim.empty() && y < r.bottom() - 30) part(N_("Aim"), card.aim, Weight::regular, 15);
    return y;
}

}  // namespace

void job_card_screen(Page& p, const JobCard& card, const JobCardCalls& calls) {
    Canvas& d = p.d;
    std::vector<BarButton> buttons;
    if (card.papers.coached) buttons.push_back({tr("What if"), "V", "what if", calls.what_if});
    buttons.push_back({tr("Back to the shelf"), "Esc", "back", calls.back});
    page_bar(p, tr("Job card"), tr("practice, not a real heater"), buttons);
    const std::string clock = words::time_of_day(card.clock_s).substr(0, 5);
    const std::string start_words = say("Start at {0}", clock);
    const bool wide = p.l.w >= 900;
    const bool roomy = p.l.h >= 640;
    if (wide) {
        const double side = 440;
        const Rect left{28, 56, p.l.w - side - 28 * 2 - 20, p.l.h - 76};
        story(p, card, left, roomy);
        const double x = p.l.w - 28 - side;
        const double foot = cautions(p, {x, 56, side, 0}, roomy);
        const double h = how(p, card, calls, {x, foot + 12, side, roomy ? 196.0 : 176.0});
        const Rect go{x, std::min(std::max(h + 16, foot + 12 + (roomy ? 196.0 : 176.0) + 12), p.l.h - 74), side, 50};
        button(d, go, start_words, "Enter", ButtonState::held, 18);
        p.target(go, "start", calls.start);
        if (card.minutes > 0 && go.bottom() + 24 < p.l.h)
            d.text(x, go.bottom() + 20,
                   say("About {0} minutes. The clock can be sped up, never skipped.", words::fixed(card.minutes)), 13,
                   Weight::regular, d.c.ink2);
        return;
    }
    const Rect go{12, p.l.h - 44, 240, 34};
    button(d, go, start_words, "Enter", ButtonState::held, 16);
    p.target(go, "start", calls.start);
    // Narrow: the story, and the caution beneath it in one line of its own.
    story(p, card, {12, 48, p.l.w - 24, p.l.h - 48 - 92}, false);
    warning_sign(d, 26, p.l.h - 68, 16, d.c.ink);
    d.wrapped(46, p.l.h - 72,
              tr("Practice: the appliance's own instructions, local codes and your licence decide on a real job."),
              p.l.w - 60, 12, Weight::regular, d.c.ink);
    if (card.papers.coached) {
        double x = 264;
        for (const auto& [help, words, name] : {std::tuple(Help::coached, tr("Coached"), "help coached"),
                                                std::tuple(Help::alone, tr("Alone"), "help alone")}) {
            const Rect cell{x, p.l.h - 44, 84, 34};
            const bool on = card.help == help;
            d.rect(cell, on ? d.c.inverse : d.c.sheet);
            d.stroke(box(cell), d.c.ink, kSeen, true);
            d.text(cell.centre().x, cell.y + 22, words, 14, Weight::semibold, on ? d.c.on_inverse : d.c.ink,
                   Align::middle);
            p.target(cell, name, [choose = calls.choose, h = help] { choose(h); });
            x += 84;
        }
    }
}

}  // namespace quarterturn::window
