// A class at one station: a roster, a pack sealed for it, what it leaves behind.
#pragma once

#include <filesystem>

#include "sim/school/read_class.hpp"
#include "tests/window/sitting.hpp"

namespace quarterturn::window {

struct ClassRoom : Sitting {
    school::KeyPair keys = school::new_key_pair();
    std::optional<school::Pack> pack;

    school::Roster roster() const {
        school::Roster r;
        r.read = true;
        r.pupils = {{"p01", "Åsa Lind", "", school::kNoHome},
                    {"p02", "Otto Berg", "", school::kNoHome},
                    {"p11", "Ottilie Kern", "", school::kNoHome}};
        return r;
    }
    void sit(bool with_pack) {
        Start s;
        s.library = std::make_shared<files::DiskLibrary>(test::source_path("scenarios"));
        s.roster = roster();
        s.records = scratch.file("records");
        if (with_pack) s.pack = pack;
        screens = std::make_unique<Screens>(std::move(s), fonts);
        screens->resize(1280, 800);
        draw();
    }
    void seal(const school::PackTerms& terms) {
        std::vector<school::PackJob> jobs;
        for (const char* who : {"p01", "p02"})
            jobs.push_back({who, *files::load_scenario(test::shipped(), "new-gas-valve", 5).value, 5});
        std::string reason;
        const auto made = school::seal_pack(terms, jobs, "acorn amber", keys.public_half);
        keys.packs.push_back(made.kept);
        pack = school::read_pack(scratch.write("p.pack", made.text), reason);
        REQUIRE(pack);
    }
    std::vector<school::ClassRow> rows(bool with_key) {
        files::Problems none;
        return school::read_class(school::records_in({scratch.file("records")}, none), {},
                                  {with_key ? &keys : nullptr, nullptr});
    }
};

}  // namespace quarterturn::window
