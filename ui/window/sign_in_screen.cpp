#include "ui/window/sign_in_screen.hpp"

#include <algorithm>

#include "sim/school/moment.hpp"

namespace quarterturn::window {

namespace {

constexpr double kRow = 40;

void class_list(Page& p, SignIn& s, const Rect& r) {
    Canvas& d = p.d;
    SignIn* in = &s;
    d.rect(r, d.c.sheet);
    d.stroke(box(r), d.c.ink, kSeen, true);
    const double lead = d.width(tr("Number or name"), 15, Weight::semibold);
    d.text(r.x + 16, r.y + 35, tr("Number or name"), 15, Weight::semibold, d.c.ink);
    const Rect field{r.x + 30 + lead, r.y + 14, std::min(280.0, r.w - 46 - lead), 34};
    typed_field(p, field, s.typed, tr("type, or use the arrows"), s.field == SignInField::list);
    p.target(field, "field list", [in] { in->field = SignInField::list; });
    d.line(r.x, r.y + 62, r.right(), r.y + 62, d.c.ink, kThin);
    const double foot = r.bottom() - 8;
    // Two columns where there is room; what does not fit is scrolled by the arrows.
    const bool two = r.w > 600;
    const auto high = static_cast<std::size_t>(std::max(1.0, (foot - r.y - 66) / kRow));
    s.rows = two ? 2 * high : high;
    s.top = std::min(s.top, s.pupils.size() > s.rows ? s.pupils.size() - s.rows : 0);
    const double w = two ? r.w / 2 : r.w;
    for (std::size_t i = 0; i < s.rows && s.top + i < s.pupils.size(); ++i) {
        const std::size_t at = s.top + i;
        const Rect row{r.x + (i >= high ? w : 0), r.y + 66 + kRow * static_cast<double>(i % high), w, kRow};
        const bool on = s.is_chosen && s.chosen == at;
        if (on) d.shape(box(row.x + 8, row.y + 2, row.w - 16, row.h - 5), d.c.accent_tint, d.c.accent, kSeen);
        d.text(row.x + 54, row.y + 26, std::to_string(at + 1), 18, Weight::regular, d.c.ink, Align::right);
        const std::string me = on ? tr("this is me") : "";
        const double beside = on ? d.width(me, 13, Weight::semibold) + 20 : 0;
        d.text(row.x + 70, row.y + 26, d.fitted(s.pupils[at].name, row.w - 90 - beside, 16, Weight::regular), 16,
               on ? Weight::semibold : Weight::regular, d.c.ink);
        if (on) d.text(row.right() - 18, row.y + 26, me, 13, Weight::semibold, d.c.ink, Align::right);
        d.line(row.x + 14, row.bottom() - 1, row.right() - 14, row.bottom() - 1, d.c.rule, kThin);
        p.target(row, "pupil " + s.pupils[at].identity, [in, at] {
            in->chosen = at;
            in->is_chosen = true;
            in->field = in->has_pack ? SignInField::words : SignInField::list;
            in->message.clear();
        });
    }
}

//! What the pack is, and its words. Returns its foot.
double pack_paper(Page& p, SignIn& s, const Rect& r) {
    Canvas& d = p.d;
    SignIn* in = &s;
    const double x = r.x + 20;
    const double w = r.w - 40;
    // Drawn over its own paper: how high it is has to be known first.
    double y = r.y + 66;
    std::vector<std::pair<std::string, std::string>> facts;
    facts.emplace_back(tr("Job"), tr("one heater; which, is drawn for you"));
    if (s.pack.minutes) facts.emplace_back(tr("Time"), say("{0} min on the bench's clock", s.pack.minutes));
    if (s.pack.opens) facts.emplace_back(tr("Opens"), school::local_moment(s.pack.opens));
    if (s.pack.closes) facts.emplace_back(tr("Closes"), school::local_moment(s.pack.closes));
    facts.emplace_back(tr("Help"), tr("no hints; marks from your instructor, later"));
    const double high = 60 + 30 * static_cast<double>(facts.size()) + 76;
    paper(d, {r.x, r.y, r.w, high}, "", 16);
    d.text(x, r.y + 30, tr("Sealed by the instructor"), 13, Weight::regular, d.c.ink2);
    d.text(x, r.y + 54, d.fitted(s.pack.title.empty() ? tr("Assessment") : s.pack.title, w - 20, 20, Weight::semibold),
           20, Weight::semibold, d.c.ink);
    for (const auto& [name, value] : facts) {
        d.text(x, y + 18, name, 14, Weight::regular, d.c.ink2);
        d.text(x + 70, y + 18, d.fitted(value, w - 70, 14, Weight::regular), 14, Weight::regular, d.c.ink);
        d.line(x, y + 26, x + w, y + 26, d.c.rule, kThin);
        y += 30;
    }
    d.text(x, y + 22, tr("The words, as they are said in the room"), 13, Weight::regular, d.c.ink2);
    const Rect field{x, y + 30, w, 34};
    typed_field(p, field, s.words, "", s.field == SignInField::words);
    p.target(field, "field words", [in] { in->field = SignInField::words; });
    return r.y + high;
}

//! Pack, what stands in the way, and the button. Returns the height below it.
double side_column(Page& p, SignIn& s, const SignInCalls& calls, double x, double y, double w) {
    Canvas& d = p.d;
    if (s.has_pack) y = pack_paper(p, s, {x, y, w, 0}) + 14;
    if (!s.message.empty()) y = d.wrapped(x + 4, y + 16, s.message, w - 8, 15, Weight::semibold, d.c.ink) + 4;
    const Rect b{x, y, w, 44};
    const std::string who = s.is_chosen ? say("I am {0}", s.pupils[s.chosen].name) : tr("Choose your name");
    button(d, b, d.fitted(who, w - 110, 16, Weight::semibold), "Enter",
           s.ready() ? ButtonState::rest : ButtonState::not_now, 16);
    p.target(b, "begin", calls.begin);
    return y + 58;
}

}  // namespace

void sign_in_screen(Page& p, SignIn& s, const SignInCalls& calls) {
    page_bar(p, tr("Quarterturn"), tr("who sits here?"),
             {{tr("Settings"), "F1", "settings", calls.settings}, {tr("Close"), "Esc", "quit", calls.quit}});
    if (p.l.w > 860) {
        const double side = 424;
        const double caution = caution_height(p.d, side);
        class_list(p, s, {12, 52, p.l.w - side - 36, p.l.h - 64});
        const double x = p.l.w - side - 12;
        // Where pack and caution do not fit one below the other they are scrolled.
        scrolled(p, {x, 52, side, p.l.h - 58}, [&](Page& q, double y) {
            const double foot = side_column(q, s, calls, x, y, side);
            const double at = std::max(foot, y + p.l.h - 64 - caution);
            caution_box(q, {x, at, side, caution});
            return at + caution;
        });
        return;
    }
    // One below the other.
    const double w = p.l.w - 24;
    const double list = std::max(66 + 4 * kRow, 0.45 * p.l.h);
    scrolled(p, {0, 44, p.l.w, p.l.h - 44}, [&](Page& q, double y) {
        class_list(q, s, {12, y + 8, w, list});
        const double foot = side_column(q, s, calls, 12, y + list + 20, w);
        const double caution = caution_height(q.d, w);
        caution_box(q, {12, foot, w, caution});
        return foot + caution + 12;
    });
}

void handed_in_screen(Page& p, const HandedIn& h, const std::function<void()>& next,
                      const std::function<void()>& quit) {
    page_bar(p, tr("Handed in"), h.title,
             {{tr("Next pupil"), "Enter", "next", next}, {tr("Close"), "Esc", "quit", quit}});
    const double w = std::min(640.0, p.l.w - 24);
    const double x = (p.l.w - w) / 2;
    scrolled(p, {0, 44, p.l.w, p.l.h - 44}, [&](Page& q, double top) {
        Canvas& e = q.d;
        double y = top + 60;
        y = e.wrapped(x, y, h.name, w, 26, Weight::semibold, e.c.ink) + 6;
        y = e.wrapped(x, y, h.why, w, 17, Weight::regular, e.c.ink) + 6;
        y = e.wrapped(x, y, tr("Your marks come from your instructor: this station cannot read what it has sealed."), w,
                      17, Weight::regular, e.c.ink) +
            12;
        y = e.wrapped(x, y, say("Sealed record: {0}", h.record), w, 13, Weight::regular, e.c.ink2) + 10;
        const double caution = caution_height(e, w);
        caution_box(q, {x, y, w, caution});
        return y + caution + 12;
    });
}

}  // namespace quarterturn::window
