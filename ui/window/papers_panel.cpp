// The two papers: the appliance's instruction sheet and the job sheet the trainee fills.
#include <algorithm>
#include <array>
#include <cmath>

#include "ui/window/section_drawing.hpp"
#include "ui/window/screen.hpp"

namespace quarterturn::window {

namespace {

std::string span(const heater::Band& b) { return say("{0} \u2013 {1}", one_decimal(b.low), one_decimal(b.high)); }

std::string pressures(const heater::Band& b) {
    using words::Quantity;
    return say("{0} \u2013 {1}", words::number_of(Quantity::pressure_pa, b.low),
               words::number_of(Quantity::pressure_pa, b.high));
}

struct Line {
    std::string what, value;
};

std::vector<Line> instruction_lines(const Papers& p) {
    const heater::InstructionSheet& s = p.sheet;
    const auto way = [](bool left) { return left ? tr("turn left") : tr("turn right"); };
    const bool o2 = s.judged_by == heater::Figure::o2;
    return {{o2 ? tr("High fire O\u2082, %") : tr("High fire CO\u2082, %"), span(s.high_pct)},
            {o2 ? tr("Low fire O\u2082, %") : tr("Low fire CO\u2082, %"), span(s.low_pct)},
            {tr("CO, air-free"), say("max {0} ppm", thousands(s.co_limit_ppm))},
            {say("Supply working, {0}", words::unit_of(words::Quantity::pressure_pa)), pressures(s.supply_working_pa)},
            {tr("Run before reading"), words::duration(s.settle_s)},
            {tr("Throttle, more gas"), way(p.throttle.left_opens)},
            {tr("Offset, more gas"), way(p.offset.left_opens)}};
}

void record_button(Frame& f, const Rect& r) {
    Seat* s = &f.s;
    const bool can = s->can(practice::record(practice::Line::found));
    button(f.d, r, tr("Record"), "F5", can ? ButtonState::rest : ButtonState::not_now, 14);
    f.target(r, "record", [s] { s->record_reading(); }).about = s->why_not(practice::record(practice::Line::found));
}

}  // namespace

bool sheet_read(const Seen& r) { return r.looked(faults::Sense::sheet); }

void instruction_paper(Frame& f, const Rect& r, bool framed) {
    Canvas& d = f.d;
    double y = r.y + 20;
    if (framed) {
        paper(d, r, tr("Instruction sheet"));
        y = r.y + 42;
    }
    if (!sheet_read(f.r)) {
        d.text(r.x + 11, y + 4, tr("Still folded: nobody has read it."), 14, Weight::italic, d.c.ink2);
        Seat* s = &f.s;
        const Action look = practice::look(faults::Sense::sheet);
        const Rect read{r.x + 11, y + 16, 112, 26};
        button(d, read, tr("Read it"), "", s->can(look) ? ButtonState::rest : ButtonState::not_now, 14);
        f.target(read, "read the sheet", [s, look] { s->act(look); }).about = s->why_not(look);
        return;
    }
    const auto lines = instruction_lines(f.papers());
    const double gap = framed ? 21 : std::min(21.0, (r.h - 8) / static_cast<double>(lines.size()));
    const double room = r.w - (framed ? 21 : 31) - 6;
    for (const Line& l : lines) {
        const bool fits = d.width(l.what, 14, Weight::regular) + d.width(l.value, 14, Weight::semibold) <= room;
        const double size = fits ? 14 : 12;
        const double label = room - d.width(l.value, size, Weight::semibold);
        d.text(r.x + 11, y, d.fitted(l.what, label, size, Weight::regular), size, Weight::regular, d.c.ink);
        d.text(r.right() - (framed ? 10 : 20), y, l.value, size, Weight::semibold, d.c.ink, Align::right);
        d.line(r.x + 11, y + 5, r.right() - 10, y + 5, d.c.rule, kThin);
        y += gap;
    }
}

void job_paper(Frame& f, const Rect& r, bool framed) {
    Canvas& d = f.d;
    if (framed) paper(d, r, tr("Job sheet"));
    const std::array<double, 3> cx{r.x + 11, r.x + r.w * 0.62, r.x + r.w * 0.87};
    double y = r.y + (framed ? 48 : 20);
    d.text(cx[1], y, tr("as found"), 13, Weight::regular, d.c.ink2, Align::middle);
    d.text(cx[2], y, tr("as left"), 13, Weight::regular, d.c.ink2, Align::middle);
    d.line(r.x + 8, y + 6, r.right() - 8, y + 6, d.c.ink, kThin);
    const practice::JobSheet& s = f.r.sheet;
    struct Row {
        const char* name;
        const practice::Reading* found;
        const practice::Reading* left;
        bool co2;
    };
    const bool o2 = f.papers().sheet.judged_by == heater::Figure::o2;
    const std::array<Row, 4> rows{
        {{o2 ? N_("High O\u2082 %") : N_("High CO\u2082 %"), &s.found_high, &s.left_high, true},
         {N_("High CO ppm"), &s.found_high, &s.left_high, false},
         {o2 ? N_("Low O\u2082 %") : N_("Low CO\u2082 %"), &s.found_low, &s.left_low, true},
         {N_("Low CO ppm"), &s.found_low, &s.left_low, false}}};
    const double gap = std::min(26.0, (r.bottom() - y - 16) / 4);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const double ry = y + 5 + gap * static_cast<double>(i + 1) - 5;
        d.text(cx[0], ry, tr(rows[i].name), 14, Weight::regular, d.c.ink);
        for (int side = 0; side < 2; ++side) {
            const practice::Reading& st = side ? *rows[i].left : *rows[i].found;
            const double x = cx[static_cast<std::size_t>(side) + 1];
            if (st.set) {
                const std::string value = rows[i].co2 ? one_decimal(f.papers().sheet.figure(st)) : thousands(st.co_ppm);
                // Recorded while it moved: the figure stays hollow.
                if (st.settled)
                    d.text(x, ry, value, 15, Weight::italic, d.c.ink, Align::middle);
                else
                    d.hollow_text(x, ry, value, 16, Weight::italic, d.c.sheet, d.c.ink, Align::middle);
            } else {
                d.line(x - 16, ry, x + 16, ry, d.c.rule, kThin, {2, 3});
            }
        }
        d.line(r.x + 8, ry + 5, r.right() - 8, ry + 5, i == 1 ? d.c.ink : d.c.rule, kThin);
    }
}

void papers_panel(Frame& f) {
    const Rect& p = f.l.papers;
    if (p.w <= 0) return;
    Canvas& d = f.d;
    if (f.l.kind == Layout::Kind::full) {
        const double iw = std::min(290.0, std::floor((p.w - 12) * 0.53));
        instruction_paper(f, {p.x, p.y, iw, p.h - 6}, true);
        const Rect job{p.x + iw + 12, p.y, p.w - iw - 16, p.h - 6};
        job_paper(f, job, true);
        record_button(f, {job.right() - 122, job.y + 6, 104, 24});
        return;
    }
    // Two tabs on one sheet.
    const bool ins = f.h.instructions_tab;
    const Rect body{p.x, p.y + 24, p.w - 4, p.h - 30};
    paper(d, body, "");
    Hands* h = &f.h;
    const auto tab = [&](double x, double w, const char* words, bool on, bool value) {
        const Path shape{{x, p.y + 24}, {x + 6, p.y}, {x + w - 6, p.y}, {x + w, p.y + 24}};
        d.shape(shape, on ? d.c.sheet : d.c.paper, d.c.ink, on ? kSeen : kThin);
        if (on) d.line(x + 2, p.y + 24, x + w - 2, p.y + 24, d.c.sheet, kCut);
        d.text(x + w / 2, p.y + 17, tr(words), 14, on ? Weight::semibold : Weight::regular, on ? d.c.ink : d.c.ink2,
               Align::middle);
        f.target({x, p.y, w, 24}, std::string("paper ") + words, [h, value] { h->instructions_tab = value; });
    };
    tab(p.x, 104, N_("Job sheet"), !ins, false);
    tab(p.right() - 128, 120, N_("Instructions"), ins, true);
    if (ins) {
        instruction_paper(f, {body.x, body.y, body.w, body.h}, false);
    } else {
        job_paper(f, body, false);
        record_button(f, {p.x + 112, p.y, 104, 20});
    }
}

namespace {

void parts_list(Frame& f, const Rect& body) {
    Canvas& d = f.d;
    std::vector<std::pair<std::string, std::string>> names{{"T", words::name(ScrewId::throttle)},
                                                           {"O", words::name(ScrewId::offset)}};
    int n = 0;
    for (const auto& p : part_names()) names.emplace_back(std::to_string(++n), p);
    const std::size_t half = (names.size() + 1) / 2;
    const double gap = std::min(23.0, (body.h - 16) / static_cast<double>(half));
    for (std::size_t i = 0; i < names.size(); ++i) {
        const double px = body.x + 22 + (i < half ? 0 : body.w * 0.5);
        const double py = body.y + 20 + static_cast<double>(i % half) * gap;
        d.disc(px, py, 10, d.c.sheet);
        d.ring(px, py, 10, d.c.ink, kThin);
        d.text(px, py + 4.6, names[i].first, 13, Weight::semibold, d.c.ink, Align::middle);
        d.text(px + 17, py + 5, names[i].second, 13, Weight::regular, d.c.ink);
    }
}

}  // namespace

void tabbed_panel(Frame& f) {
    const Rect& t = f.l.tabs;
    if (t.w <= 0) return;
    Canvas& d = f.d;
    Hands* h = &f.h;
    const Rect body{t.x, t.y + 28, t.w, t.h - 28};
    d.rect(body, d.c.sheet);
    d.stroke(box(body), d.c.ink, kThin, true);
    double x = t.x;
    constexpr std::array<std::pair<const char*, Tab>, 3> tabs{
        {{N_("Trend"), Tab::trend}, {N_("Papers"), Tab::papers}, {N_("Parts"), Tab::parts}}};
    for (const auto& [words, which] : tabs) {
        const bool on = f.h.tab == which;
        const double w = d.width(tr(words), 15, Weight::semibold) + 28;
        d.shape({{x, t.y + 28}, {x + 6, t.y}, {x + w - 6, t.y}, {x + w, t.y + 28}}, on ? d.c.sheet : d.c.paper, d.c.ink,
                on ? kSeen : kThin);
        if (on) d.line(x + 1.5, t.y + 28, x + w - 1.5, t.y + 28, d.c.sheet, kCut);
        d.text(x + w / 2, t.y + 20, tr(words), 15, on ? Weight::semibold : Weight::regular, d.c.ink, Align::middle);
        f.target({x, t.y, w, 28}, std::string("tab ") + words, [h, v = which] { h->tab = v; });
        x += w + 2;
    }
    switch (f.h.tab) {
        case Tab::trend: trend_panel(f, body); break;
        case Tab::papers: {
            const double half = std::floor(body.w * 0.5);
            instruction_paper(f, {body.x, body.y + 4, half - 4, body.h - 8}, false);
            d.line(body.x + half, body.y + 8, body.x + half, body.bottom() - 8, d.c.rule, kThin);
            // The button stands beside the heads of the columns, so that the rows have all the height there is.
            job_paper(f, {body.x + half, body.y + 4, body.w - half, body.h - 4}, false);
            record_button(f, {body.x + half + 8, body.y + 4, 104, 20});
            break;
        }
        case Tab::parts: parts_list(f, body); break;
    }
}

void page_cells(Frame& f) {
    const Rect& side = f.l.side;
    if (side.w <= 0) return;
    Canvas& d = f.d;
    Hands* h = &f.h;
    const std::array<const char*, kPages> names{tr("Above"), tr("Middle"), tr("Below"), tr("Papers")};
    const double gap = 5;
    const double high = (side.h - gap * (kPages - 1)) / kPages;
    for (int i = 0; i < kPages; ++i) {
        const Rect r{side.x, side.y + i * (high + gap), side.w, high};
        const bool on = h->page == i;
        d.rect(r, on ? d.c.inverse : d.c.sheet);
        d.stroke(box(r), d.c.ink, kSeen, true);
        d.text(r.x + 8, r.centre().y + 5, names[static_cast<std::size_t>(i)], 14, Weight::semibold,
               on ? d.c.on_inverse : d.c.ink);
        if (i == (h->page + 1) % kPages) keycap(d, r.right() - 30, r.centre().y - 9, "F6", d.c.ink);
        f.target(r, "page " + std::to_string(i), [h, i] { h->page = i; });
    }
}

}  // namespace quarterturn::window
