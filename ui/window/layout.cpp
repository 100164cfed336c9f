#include "ui/window/layout.hpp"

#include <algorithm>

namespace quarterturn::window {

Layout lay_out(double width_px, double height_px, double text_scale, int page) {
    Layout l;
    l.u = text_scale * std::max(1.0, std::min(width_px / 1280, height_px / 800));
    l.w = width_px / l.u;
    l.h = height_px / l.u;
    constexpr double bar = 40, line = 36, edge = 12, gap = 8;
    const auto frame = [&](double tray) {
        l.top = {0, 0, l.w, bar};
        l.bottom = {0, l.h - line, l.w, line};
        l.tray = {edge, l.h - line - 4 - tray, l.w - 2 * edge, tray};
    };
    // Full and small: drawing to the left, a column of 376 to 600 to the right.
    frame(124);
    const double top = bar + gap;
    double free = l.tray.y - gap - top;
    const double k_height = free / kDrawingHeight;
    const double column = std::clamp(l.w - 36 - kDrawingWidth * k_height, 376.0, 600.0);
    const double k_width = (l.w - column - 2 * edge - gap) / kDrawingWidth;
    l.k = std::min(k_height, k_width);
    if (l.k >= 0.7 && free >= 440) {
        l.kind = l.w < 1200 ? Layout::Kind::small : Layout::Kind::full;
        const double x = l.w - edge - column;
        l.drawing = {edge, top, kDrawingWidth * l.k, kDrawingHeight * l.k};
        l.readings = {x, top, column, 152};
        const double papers = l.kind == Layout::Kind::small ? 150 : 192;
        l.trend = {x, l.readings.bottom() + gap, column, free - 152 - papers - 2 * gap};
        l.papers = {x, l.trend.bottom() + gap, column, papers};
        l.view = l.drawing;
        return l;
    }
    frame(100);
    free = l.tray.y - gap - top;
    l.k = free / kDrawingHeight;
    const double x = edge + kDrawingWidth * l.k + gap;
    if (l.k >= 0.5 && l.w - edge - x >= 330) {
        l.kind = Layout::Kind::compact;
        l.drawing = {edge, top, kDrawingWidth * l.k, kDrawingHeight * l.k};
        l.readings = {x, top, l.w - edge - x, 116};
    } else {
        l.kind = Layout::Kind::single;
        frame(96);
        l.readings = {edge, bar + 4, l.w - 2 * edge, 56};
        const double stack = l.w > 600 ? 104 : 84;
        const double from = l.readings.bottom() + 5;
        l.view = {edge, from, l.w - 2 * edge - stack - gap, l.tray.y - 5 - from};
        l.side = {l.view.right() + gap, from, stack, l.view.h};
        l.k = l.view.w / kDrawingWidth;
        if (page == kTabsPage) {
            l.tabs = l.view;
            return l;
        }
        // The three thirds overlap by what there is to spare.
        const double scroll = page * (kDrawingHeight * l.k - l.view.h) / 2;
        l.drawing = {l.view.x, l.view.y - scroll, kDrawingWidth * l.k, kDrawingHeight * l.k};
        return l;
    }
    l.view = l.drawing;
    const double y = l.readings.bottom() + 10;
    const double end = l.tray.w > 0 ? l.tray.y : l.bottom.y;
    l.tabs = {l.readings.x, y, l.readings.w, end - gap - y};
    return l;
}

}  // namespace quarterturn::window
