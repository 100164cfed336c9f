#include "ui/report/keys.hpp"

#include <fmt/format.h>

#include "ui/words/words.hpp"

namespace quarterturn::report {

std::string explained(const files::KeyAbout& k) {
    std::string out =
        fmt::format("{} file, {}\n  {}\n  allowed: {}\n", files::kind_word(k.file), k.key, k.meaning, k.allowed());
    out += k.required() ? "  it must be there\n" : fmt::format("  left out: {}\n", k.left_out);
    return out;
}

std::string keys_page() {
    std::string out = "# Keys\n\n> " + words::caution() +
                      "\n\nEvery key of every data file, made by `build/validation_table` from sim/files/key_list.def: "
                      "do not edit by "
                      "hand. "
                      "`build/quarterturn check --explain KEY` says the same of one. A key of a table has the table's "
                      "name before it: "
                      "`burner.input_kw` stands as `input_kw` under `[burner]`. In a lesson a number may also be "
                      "`{ from = A, to = B }`, with `step` if wanted, and a text or choice a list: the seed draws. "
                      "[lessons.md](lessons.md) shows a whole lesson, [class.md](class.md) a roster, "
                      "[packs.md](packs.md) how a pack is "
                      "made.\n";
    for (const files::FileKind kind :
         {files::FileKind::lesson, files::FileKind::appliance, files::FileKind::gas, files::FileKind::analyzer,
          files::FileKind::site, files::FileKind::roster, files::FileKind::pack, files::FileKind::settings}) {
        out += fmt::format("\n## {}\n\n| key | allowed | left out | meaning |\n|---|---|---|---|\n",
                           words::sentence_case(std::string(files::kind_word(kind))));
        for (const files::KeyAbout& k : files::all_keys())
            if (k.file == kind)
                out += fmt::format("| `{}` | {} | {} | {} |\n", k.key, k.allowed(),
                                   k.required() ? "must be there" : k.left_out, k.meaning);
    }
    out +=
        "\nA lesson's `[site]` takes every key of a site file. `[offset_screw]` takes those of `[throttle_screw]`, and "
        "`[conversion]` those of `[instructions]` but for hydrogen.\n";
    return out;
}

}  // namespace quarterturn::report
