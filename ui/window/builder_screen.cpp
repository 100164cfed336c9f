#include "ui/window/builder_screen.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <set>

namespace quarterturn::window {

namespace {

constexpr double kRow = 32;

//! "Air temp" of "site.air_temp_c": what is said of the unit stands behind the value.
std::string plain_name(const BuilderRow& r) {
    std::string name = r.path.substr(r.path.rfind('.') + 1);
    const auto last = name.rfind('_');
    if (last != std::string::npos && !r.about->unit.empty()) {
        static const std::set<std::string> units{"c", "pct", "m", "pa", "s", "m3", "turns", "h"};
        if (units.count(name.substr(last + 1))) name.erase(last);
    }
    std::replace(name.begin(), name.end(), '_', ' ');
    return words::sentence_case(name);
}

//! What may be typed. Of a number that the seed may draw, how a range is written.
std::string allowed_words(const BuilderRow& r) {
    const bool drawn = r.about->type == files::KeyType::number && !r.path.starts_with("marks.") && r.path != "minutes";
    return drawn ? say("{0}, or a range as {{ from = A, to = B }}", r.about->allowed()) : r.about->allowed();
}

//! What stands in a field whose key is left out.
std::string left_out_words(const BuilderRow& r, const std::string& site_from) {
    if (r.path.starts_with("site.") && r.path != "site.from" && r.about->file == files::FileKind::site &&
        !site_from.empty())
        return say("as in {0}", site_from);
    return r.about->left_out ? say("left out: {0}", r.about->left_out) : std::string();
}

//! inside: the row that is chosen is this table or one of its keys.
double head_row(Page& p, const BuilderRow& r, std::size_t i, bool on, bool inside, const BuilderCalls& calls,
                const Rect& at) {
    Canvas& d = p.d;
    if (on) d.shape(box(at.x, at.y + 2, at.w, at.h - 4), d.c.accent_tint, d.c.accent, kSeen);
    d.text(at.x + 10, at.y + 22, r.path, 16, Weight::semibold, d.c.ink);
    const double w = d.width(r.path, 16, Weight::semibold);
    const std::string note = r.problem.empty() ? std::string(r.about->meaning) : r.problem;
    d.text(at.x + 24 + w, at.y + 22, d.fitted(note, at.w - w - 40, 13, Weight::regular), 13, Weight::regular,
           r.problem.empty() ? d.c.ink2 : d.c.ink);
    d.line(at.x, at.bottom() - 1, at.right(), at.bottom() - 1, d.c.ink, kSeen);
    p.target(at, "row " + r.path, [choose = calls.choose, i] { choose(i); });
    if (inside && (r.path.find('[') != std::string::npos || r.path == "answer")) {
        const std::string label = r.path == "answer" ? tr("Take it out") : tr("Remove this fault");
        const char* key = on ? "Del" : "Shift Del";
        const double wide = d.width(label, 13, Weight::semibold) + d.width(key, 13, Weight::regular) + 36;
        const Rect b{at.right() - wide - 8, at.y + 4, wide, 24};
        d.rect({b.x - 8, b.y - 1, b.w + 8, b.h + 2}, on ? d.c.accent_tint : d.c.paper);
        button(d, b, label, key, ButtonState::rest, 13);
        p.target(b, "remove", calls.remove);
    }
    return at.bottom();
}

//! A choice as joined cells where they fit; else false.
bool choice_cells(Page& p, const BuilderRow& r, const BuilderCalls& calls, const Rect& field) {
    const auto& words = r.words;
    if (words.empty() || words.size() > 3) return false;
    Canvas& d = p.d;
    double x = field.x;
    const std::string now = Builder::to_type(r);
    // A path, or a list the seed draws from, is none of them: it is shown as it is written.
    if (!r.written.empty() && std::find(words.begin(), words.end(), now) == words.end()) return false;
    for (const std::string& word : words) {
        const double w = d.width(word, 14, Weight::semibold) + 18;
        if (x + w > field.right()) return true;
        const Rect cell{x, field.y, w, field.h};
        const bool given = now == word;
        const bool default_word = r.written.empty() && r.about->left_out && word == r.about->left_out;
        d.rect(cell, given ? d.c.inverse : d.c.sheet);
        d.stroke(box(cell), d.c.ink, given ? kSeen : kThin, true, default_word ? Dash{3, 2} : Dash{});
        d.text(cell.centre().x, cell.y + 18, word, 14, given ? Weight::semibold : Weight::regular,
               given ? d.c.on_inverse : d.c.ink, Align::middle);
        p.target(cell, "word " + r.path + " " + word,
                 [set = calls.set, path = r.path, word] { set(path + "\n" + word); });
        x += w;
    }
    return true;
}

//! A text with its own line ends kept; the baseline after its last line.
double written_lines(Canvas& d, double x, double y, const std::string& text, double w, Weight weight,
                     sf::Color colour) {
    for (std::size_t from = 0; from <= text.size();) {
        const auto end = std::min(text.find('\n', from), text.size());
        if (end > from) y = d.wrapped(x, y, text.substr(from, end - from), w, 15, weight, colour);
        from = end + 1;
    }
    return y;
}

double key_row(Page& p, const BuilderRow& r, std::size_t i, const BuilderView& view, const BuilderCalls& calls,
               const std::string& site_from, const Rect& at) {
    Canvas& d = p.d;
    const bool on = view.chosen == i;
    const bool typing = on && view.typing;
    const double name_w = std::min(210.0, at.w * 0.34);
    if (on) d.shape(box(at.x, at.y + 1, at.w, at.h - 2), d.c.accent_tint, d.c.accent, kThin);
    d.text(at.x + 10, at.y + 21, d.fitted(plain_name(r), name_w - 14, 15, Weight::regular), 15,
           on ? Weight::semibold : Weight::regular, d.c.ink);
    const Rect field{at.x + name_w, at.y + 3, at.w - name_w - 8, at.h - 6};
    p.target({at.x, at.y, name_w, at.h}, "row " + r.path, [choose = calls.choose, i] { choose(i); });
    double low = at.bottom();
    if (typing || !choice_cells(p, r, calls, field)) {
        const Weight weight = r.written.empty() && !typing ? Weight::italic : Weight::medium;
        std::string text = typing              ? view.typed.shown()
                           : r.written.empty() ? left_out_words(r, site_from)
                                               : Builder::to_type(r);
        // A text of several lines is read whole; a list or a number goes on one.
        const bool lines = r.about->type == files::KeyType::text &&
                           (text.find('\n') != std::string::npos || d.width(text, 15, weight) > field.w - 16);
        Rect frame = field;
        if (lines) {
            Canvas sketch = d.sketch();
            frame.h = written_lines(sketch, 0, field.y + 18, text, field.w - 16, weight, d.c.ink) - field.y - 8;
            low = frame.bottom() + 3;
        }
        d.rect(frame, d.c.sheet);
        d.stroke(box(frame), typing ? d.c.accent : d.c.rule, typing ? kSeen : kThin, true);
        const sf::Color colour = r.written.empty() && !typing ? d.c.ink2 : d.c.ink;
        if (lines) {
            (void)written_lines(d, field.x + 8, field.y + 18, text, field.w - 16, weight, colour);
        } else {
            std::replace(text.begin(), text.end(), '\n', ' ');
            if (typing) text = d.end_of(text, field.w - 16, 15, weight);
            d.text(field.x + 8, field.y + 18, d.fitted(text, field.w - 16, 15, weight), 15, weight, colour);
        }
        p.target(frame, "field " + r.path, [choose = calls.choose, i] { choose(i); });
    }
    if (!typing && !r.written.empty() && !r.about->unit.empty() && field.w > 200)
        d.text(field.right() - 8, field.y + 18, r.about->unit, 13, Weight::regular, d.c.ink2, Align::right);
    double y = low;
    // Why what is typed cannot stand: beside it, as long as one is at it.
    if (typing && !view.message.empty()) {
        y = d.wrapped(at.x + name_w, y + 15, view.message, field.w, 13, Weight::semibold, d.c.ink) - 4;
    } else if (!r.problem.empty()) {
        const double foot = d.wrapped(at.x + name_w, y + 15, r.problem, field.w, 13, Weight::semibold, d.c.ink);
        d.fill({{at.x + name_w - 12, y + 4}, {at.x + name_w - 4, y + 10}, {at.x + name_w - 12, y + 16}}, d.c.accent);
        y = foot - 4;
    }
    if (on)
        y = d.wrapped(at.x + name_w, y + 15,
                      r.words.size() > 3 ? say("{0}: {1}. \u2190 \u2192 goes through {2}.", r.path, r.about->meaning,
                                               words::listed(r.words))
                                         : say("{0}: {1}. Allowed: {2}.", r.path, r.about->meaning, allowed_words(r)),
                      field.w, 13, Weight::regular, d.c.ink2) -
            4;
    return y;
}

double rows(Page& p, const Builder& b, const BuilderView& view, const BuilderCalls& calls, double x, double y,
            double w) {
    std::string site_from;
    for (const BuilderRow& r : b.rows())
        if (r.path == "site.from") site_from = Builder::to_type(r);
    for (std::size_t i = 0; i < b.rows().size(); ++i) {
        const BuilderRow& r = b.rows()[i];
        const Rect at{x, r.head ? y + 8 : y, w, kRow};
        const std::string& chosen = b.rows()[std::min(view.chosen, b.rows().size() - 1)].path;
        const bool inside = chosen == r.path || chosen.starts_with(r.path + ".");
        y = r.head ? head_row(p, r, i, view.chosen == i, inside, calls, at)
                   : key_row(p, r, i, view, calls, site_from, at);
    }
    return y + 12;
}

std::string turns_words(double turns) {
    const int ticks = static_cast<int>(std::lround(turns * heater::kTicksPerTurn));
    if (ticks == 0) return tr("not at all");
    const std::string by = words::value(practice::Turns{std::abs(ticks)});
    return ticks > 0 ? say("{0} more gas", by) : say("{0} less gas", by);
}

//! What follows from the file, and whether it can be done. Returns its foot.
double findings(Page& p, const Builder& b, double x, double y, double w) {
    Canvas& d = p.d;
    const auto title = [&](const char* text) {
        d.text(x, y + 18, tr(text), 17, Weight::semibold, d.c.ink);
        d.line(x, y + 26, x + w, y + 26, d.c.ink, kSeen);
        y += 34;
    };
    const auto fact = [&](const std::string& name, const std::string& value) {
        const double names = std::min(170.0, 0.36 * w);
        const double beside = d.wrapped(x, y + 16, name, names - 8, 14, Weight::regular, d.c.ink2) - 12;
        y = std::max(beside, d.wrapped(x + names, y + 16, value, w - names, 14, Weight::medium, d.c.ink) - 12);
        y += 6;
    };
    title(b.problems().empty() ? N_("The file is right") : N_("What is wrong"));
    for (std::size_t i = 0; i < std::min<std::size_t>(5, b.problems().size()); ++i) {
        const files::Problem& f = b.problems()[i];
        y = d.wrapped(x, y + 14, say("line {0}: {1}", f.line, f.message), w, 14, Weight::medium, d.c.ink) - 8;
    }
    if (b.problems().size() > 5) {
        d.text(x, y + 16, say("and {0} more", b.problems().size() - 5), 14, Weight::italic, d.c.ink2);
        y += 22;
    }
    y += 10;
    if (b.facts()) {
        const marking::LessonFacts& f = *b.facts();
        title(b.problems().empty() ? N_("What follows") : N_("What followed before that"));
        const auto fire = [](const marking::FireFacts& x1) {
            return x1.flame
                       ? say("{0} %, CO {1}, {2}", words::fixed(x1.figure_pct, 2), words::fixed(x1.co_air_free_ppm),
                             words::with_unit(words::Quantity::power_kw, x1.input_kw))
                       : std::string(tr("no flame"));
        };
        fact(tr("Found, high"), fire(f.found_high));
        fact(tr("Found, low"), fire(f.found_low));
        if (f.to_stop) {
            fact(tr("Right end"), tr("to be stopped: no screw is turned"));
        } else {
            fact(tr("At best, high"), fire(f.best_high));
            fact(tr("At best, low"), fire(f.best_low));
            fact(tr("Throttle"), turns_words(f.throttle_turns));
            fact(tr("Offset"), turns_words(f.offset_turns));
        }
        for (const auto& shown : f.faults) {
            std::vector<std::string> by;
            for (const faults::SignOf& s : shown.signs)
                if (const std::string sense = words::name(s.by); std::find(by.begin(), by.end(), sense) == by.end())
                    by.push_back(sense);
            fact(words::name(faults::cause_of(shown.fault.fault)), say("may show at: {0}", words::listed(by)));
        }
        y += 10;
    }
    const TrialResult now = b.trial().result();
    const TrialResult t = now.of_before ? TrialResult{} : now;
    title(N_("Can it be done?"));
    if (!b.problems().empty()) {
        d.text(x, y + 16, tr("Not before the file is right."), 14, Weight::regular, d.c.ink);
        return y + 30;
    }
    // As many cells as seeds: solid passed, hatched not passed, empty not played yet.
    for (int i = 0; i < LessonTrial::kSeeds; ++i) {
        const Rect cell{x + i * (w / LessonTrial::kSeeds), y + 2, w / LessonTrial::kSeeds - 3, 12};
        if (i < t.passed)
            d.rect(cell, d.c.ink);
        else if (i < t.seeds)
            d.hatch(box(cell), 45, 4, d.c.ink);
        d.stroke(box(cell), i < t.seeds ? d.c.ink : d.c.rule, kThin, true);
    }
    y += 20;
    fact(tr("The expert"), say("passes {0} of {1}, {2} points at least, {3} to {4} min", t.passed, t.seeds,
                               words::fixed(t.least, 1), words::fixed(t.shortest), words::fixed(t.longest)));
    if (!t.failure.empty()) fact(tr("Fails with"), t.failure);
    if (t.ended) {
        fact(tr("Poor players"),
             t.poor_passed.empty() ? std::string(tr("none passes")) : say("{0} passes", words::listed(t.poor_passed)));
        fact(tr("Learners"),
             say("the abler half gets {0}, the others {1}", words::fixed(t.able), words::fixed(t.weak)));
    } else {
        fact(tr("Learners"), b.trial().runs() ? tr("being played") : tr("not played"));
    }
    return y + 20;
}

}  // namespace

namespace {

//! What was done or refused last, at the foot, whatever the page is scrolled to. How high it is.
double message_strip(Page& p, const std::string& words) {
    if (words.empty()) return 0;
    Canvas sketch = p.d.sketch();
    const double w = p.l.w - 48;
    const double high = sketch.wrapped(0, 18, words, w, 14, Weight::semibold, p.d.c.ink) - 6;
    p.d.rect({0, p.l.h - high - 6, p.l.w, high + 6}, p.d.c.sheet);
    p.d.line(0, p.l.h - high - 6, p.l.w, p.l.h - high - 6, p.d.c.ink, kSeen);
    (void)p.d.wrapped(24, p.l.h - high + 12, words, w, 14, Weight::semibold, p.d.c.ink);
    return high + 6;
}

}  // namespace

void builder_screen(Page& whole, const Builder& b, const BuilderView& view, const BuilderCalls& calls) {
    const double strip = message_strip(whole, view.message);
    Layout above = whole.l;
    above.h -= strip;
    Page p{whole.d, above, whole.targets, whole.scroll};
    const std::string name = std::filesystem::path(b.path()).filename().string();
    page_bar(p, tr("Builder"), b.changed() ? say("{0}, not saved", name) : name,
             {{tr("Add a fault"), "F6", "add fault", calls.add_fault},
              {tr("Undo"), "Ctrl Z", "undo", calls.undo},
              {tr("Try it"), "F8", "try", calls.try_it},
              {tr("Save"), "F9", "save", calls.save},
              {tr("Leave"), "Esc", "leave", calls.leave}});
    const bool two = p.l.w > 860;
    const double when = time_line_height(b);
    if (two) {
        const double w = std::max(400.0, p.l.w * 0.6);
        const double foot = when > 0 ? p.l.h - 12 - when - 16 : p.l.h - 12;
        if (when > 0) {
            const Rect r{12, foot + 4, p.l.w - 24, when + 12};
            p.d.rect(r, p.d.c.sheet);
            p.d.stroke(box(r), p.d.c.ink, kThin, true);
            time_line(p, b, view.moved, calls.move, {r.x + 14, r.y + 8, r.w - 28, when});
        }
        scrolled(p, {12, 48, w, foot - 48}, [&](Page& q, double y) { return rows(q, b, view, calls, 16, y, w - 30); });
        p.d.clip({w + 20, 44, p.l.w - w - 20, foot - 46});
        (void)findings(p, b, w + 30, 52, p.l.w - w - 46);
        p.d.unclip();
        return;
    }
    // On one column the fields come first: what follows from them grows and shrinks as it is found out.
    scrolled(p, {0, 44, p.l.w, p.l.h - 44}, [&](Page& q, double y) {
        y = rows(q, b, view, calls, 12, y, p.l.w - 36) + 12;
        if (when > 0) {
            time_line(q, b, view.moved, calls.move, {16, y, p.l.w - 48, when});
            y += when + 8;
        }
        return findings(q, b, 16, y, p.l.w - 40);
    });
}

}  // namespace quarterturn::window
