// Writes docs/validation.md: build/validation_table [FOLDER]. Without a folder it prints. Exit 1 if a row misses
// without a known reason.
#include <fstream>
#include <iostream>

#include "tests/validation/checks.hpp"
#include "ui/report/keys.hpp"

int main(int argc, char** argv) {
    const auto groups = quarterturn::validation::all_checks();
    const std::string text = quarterturn::validation::page(groups);
    if (argc > 1) {
        const std::string folder = argv[1];
        std::ofstream(folder + "/validation.md", std::ios::binary | std::ios::trunc) << text;
        std::ofstream(folder + "/signatures.md", std::ios::binary | std::ios::trunc)
            << quarterturn::validation::signatures();
        std::ofstream(folder + "/sensitivities.md", std::ios::binary | std::ios::trunc)
            << quarterturn::validation::sensitivities();
        std::ofstream(folder + "/marks.md", std::ios::binary | std::ios::trunc)
            << quarterturn::validation::marks_page();
        std::ofstream(folder + "/actions.md", std::ios::binary | std::ios::trunc)
            << quarterturn::validation::actions_page();
        std::ofstream(folder + "/keys.md", std::ios::binary | std::ios::trunc) << quarterturn::report::keys_page();
        std::ofstream(folder + "/co-against-air-ratio.svg", std::ios::binary | std::ios::trunc)
            << quarterturn::validation::co_picture();
    } else {
        std::cout << text;
    }
    bool good = true;
    for (const auto& g : groups)
        for (const auto& c : g.checks)
            if (!c.holds()) {
                std::cerr << g.title << ": " << c.quantity << ": expected " << c.expected << ", ours " << c.ours
                          << ", tolerance " << c.tolerance << (c.known.empty() ? "" : " (known)") << "\n";
                good &= !c.known.empty();
            }
    return good ? 0 : 1;
}
