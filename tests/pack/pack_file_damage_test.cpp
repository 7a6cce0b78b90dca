// Damaged files of a pack: their bytes, headers and descriptor, and which files there are.
#include "tests/pack/damage.h"

using namespace casebound;
using namespace casebound::tests;

TEST_CASE("damaged bytes of a file are refused with their line and cell") {
    check_all({
        {"byte-order mark",
         "lines.csv",
         "line,title",
         "\xEF\xBB\xBFline,title",
         {"lines.csv:1:1: line: begins with a byte-order mark: save it as UTF-8 without one"}},
        {"not UTF-8", "lines.csv", "Plover 2.6", "Pl\xF6ver 2.6", {"lines.csv:3:2: title: byte F6 is not UTF-8"}},
        {"NUL", "lines.csv", "Plover 2.6", std::string("Plo\0er", 6), {"lines.csv:3:2: title: a NUL byte"}},
        {"lone carriage return",
         "lines.csv",
         "Tern 2.0,,s-made\n",
         "Tern 2.0,,s-made\r",
         {"applications.csv:5:1: line: `plover`", "applications.csv:6:1: line: `plover`",
          "applications.csv:7:1: line: `plover`", "configurations.csv:4:1: line: `plover`",
          "lines.csv:2:4: source: a carriage return without a line feed"}},
        {"open quote",
         "jobs.csv",
         "Change a lamp,20,s-made\n",
         "\"Change a lamp,20,s-made\n",
         {"cautions.csv:2:1: job: ", "job_roles.csv:2:1: job: ", "job_roles.csv:3:1: job: ",
          "jobs.csv:2:2: title: a quote is opened here and never closed"}},
        {"quote inside",
         "lines.csv",
         "Plover 2.6",
         "Plover 2\"6",
         {"lines.csv:3:2: title: a quote inside the cell: write it twice"}},
        {"line break in a cell",
         "lines.csv",
         "Plover 2.6",
         "\"Plover\n2.6\"",
         {"lines.csv:3:2: title: a line break inside the cell"}},
        {"large cell",
         "lines.csv",
         "Plover 2.6",
         std::string(70'000, 'x'),
         {"lines.csv:3:2: title: a cell of more than 64 KB"}},
        {"too few cells",
         "lines.csv",
         "Plover 2.6,with a bulkhead or not,s-made",
         "Plover 2.6,s-made",
         {"lines.csv:3: 3 cells, 4 are wanted: add the missing commas"}},
        {"too many cells",
         "lines.csv",
         "Plover 2.6",
         "Plover, 2.6",
         {"lines.csv:3: 5 cells, 4 are wanted: put quotes round a cell that holds a comma"}},
        {"empty line", "lines.csv", "\nplover", "\n\nplover", {"lines.csv:3: an empty line: delete it"}},
        {"row of commas", "lines.csv", "\nplover", "\n,,,\nplover", {"lines.csv:3: a row without content: delete it"}},
    });
    const CatalogFolder catalog;
    auto files = yard();
    for (auto& [name, bytes] : files) {
        std::string crlf;
        for (const char c : bytes) crlf += c == '\n' ? std::string("\r\n") : std::string(1, c);
        bytes = crlf;
    }
    CHECK(joined(texts(load_pack(PackFolder(files).path(), catalog.path(), plugins()).faults)).empty());
}

TEST_CASE("a header that is not the table's is refused, with the column that was meant") {
    check_all({
        {"misspelt",
         "jobs.csv",
         "job,title,minutes",
         "job,titel,minutes",
         {"jobs.csv:1:2: `titel` is not a column of jobs: did you mean title?"}},
        {"capitals",
         "jobs.csv",
         "job,title,minutes",
         "Job,Title,Minutes",
         {"jobs.csv:1:1: `Job` is not a column of jobs: did you mean job?", "jobs.csv:1:2: `Title`",
          "jobs.csv:1:3: `Minutes`"}},
        {"missing",
         "jobs.csv",
         "job,title,minutes,source\nlamp-change,Change a lamp,20",
         "job,title,source\nlamp-change,Change a lamp",
         {"jobs.csv:1: the column minutes is missing: the header must be job,title,minutes,source"}},
        {"extra",
         "jobs.csv",
         "minutes,source",
         "minutes,source,colour",
         {"jobs.csv:1:5: `colour` is not a column of jobs: delete it; the header must be"}},
        {"twice",
         "jobs.csv",
         "job,title,minutes,source",
         "job,title,title,source",
         {"jobs.csv:1: the column minutes is missing", "jobs.csv:1:3: the column `title` is there twice: delete one"}},
        {"order",
         "jobs.csv",
         "job,title,minutes,source",
         "title,job,minutes,source",
         {"jobs.csv:1:1: the columns are in another order: the header must be job,title,minutes,source"}},
        {"semicolons",
         "jobs.csv",
         "job,title,minutes,source",
         "job;title;minutes;source",
         {"jobs.csv:1:1: the cells are not separated by commas"}},
        {"data where the header belongs",
         "jobs.csv",
         "job,title,minutes,source\n",
         "",
         {"jobs.csv:1:1: the first line is not the header: it must be job,title,minutes,source"}},
        {"no header",
         "jobs.csv",
         "job,title,minutes,source\nlamp-change,Change a lamp,20,s-made\n",
         "",
         {"jobs.csv: it has no header: its first line must be job,title,minutes,source"}},
    });
}

TEST_CASE("a descriptor that does not fit its folder is refused") {
    check_all({
        {"not JSON", "datapackage.json", "\"title\": ", "\"title\" ", {"datapackage.json:5:16: not JSON: "}},
        {"no list",
         "datapackage.json",
         "\"resources\": [",
         "\"resources\": 7, \"x\": [",
         {"datapackage.json: resources: it is number: write a list"}},
        {"wrong type",
         "datapackage.json",
         "\"version\": \"0.1.0\"",
         "\"version\": 1",
         {"datapackage.json: version: it is number: write a text in quotes"}},
        {"invented must be yes or no",
         "datapackage.json",
         "\"invented\": true",
         "\"invented\": \"yes\"",
         {"datapackage.json: invented: it is string: write true or false", "sources.csv:2:2"}},
        {"name",
         "datapackage.json",
         "\"name\": \"yard\"",
         "\"name\": \"My Yard\"",
         {"datapackage.json: name: `My Yard`: write at most 64 lower-case letters"}},
        {"hash",
         "datapackage.json",
         "\"format\": \"csv\"",
         "\"hash\": \"md5:1\", \"format\": \"csv\"",
         {"datapackage.json: resources[0].hash: it must be sha256: and 64 digits"}},
        {"other separator",
         "datapackage.json",
         "\"delimiter\": \",\"",
         "\"delimiter\": \";\"",
         {"datapackage.json: resources[0].dialect.delimiter: `;`: a pack's files are ,"}},
        {"other encoding",
         "datapackage.json",
         "\"encoding\": \"utf-8\"",
         "\"encoding\": \"latin-1\"",
         {"datapackage.json: resources[0].encoding: `latin-1`: a pack's files are utf-8"}},
        {"wrong size",
         "datapackage.json",
         "\"format\": \"csv\"",
         "\"bytes\": 3, \"format\": \"csv\"",
         {"sources.csv: changed since it was sealed (118 bytes, 3 are recorded): run `casebound pack check --seal`"}},
        {"unknown table",
         "datapackage.json",
         "\"name\": \"jobs\"",
         "\"name\": \"jebs\"",
         {"cautions.csv:2:1",
          "datapackage.json: resources[10].name: `jebs` is not a table of a pack: did you mean jobs?",
          "datapackage.json: resources[10].path: `jobs.csv`: the file of table jebs is called jebs.csv",
          "job_roles.csv:2:1", "job_roles.csv:3:1"}},
        {"out of the folder",
         "datapackage.json",
         "\"path\": \"cautions.csv\"",
         "\"path\": \"../cautions.csv\"",
         {"cautions.csv: it lies in the folder",
          "datapackage.json: resources[13].path: `../cautions.csv` leads out of the folder: write cautions.csv"}},
        {"absolute",
         "datapackage.json",
         "\"path\": \"cautions.csv\"",
         "\"path\": \"/etc/passwd\"",
         {"cautions.csv: it lies in the folder",
          "datapackage.json: resources[13].path: `/etc/passwd`: a pack's files lie in its own folder"}},
        {"address",
         "datapackage.json",
         "\"path\": \"cautions.csv\"",
         "\"path\": \"https://example.org/cautions.csv\"",
         {"cautions.csv: it lies in the folder",
          "datapackage.json: resources[13].path: `https://example.org/cautions.csv`: a pack's files lie in its own "
          "folder"}},
        {"listed twice",
         "datapackage.json",
         "\"name\": \"cautions\"",
         "\"name\": \"sources\"",
         {"datapackage.json: resources[13].name: `sources` is listed twice: take one out"}},
    });
}

TEST_CASE("files that are missing, not listed, or not files are refused") {
    const CatalogFolder catalog;
    const auto faults_after = [&](auto change) {
        const PackFolder pack(yard());
        change(pack);
        return joined(texts(load_pack(pack.path(), catalog.path(), plugins()).faults));
    };
    namespace fs = std::filesystem;
    CHECK_THAT(faults_after([](const PackFolder& pack) { fs::remove(pack.path() + "/cautions.csv"); }),
               Catch::Equals("datapackage.json: resources[13].path: cautions.csv is not in the folder: put it there, "
                             "or take it out of the descriptor\n"));
    CHECK_THAT(faults_after([](const PackFolder& pack) { pack.write("extra.csv", "a\n"); }),
               Catch::StartsWith("extra.csv: it lies in the folder but the descriptor does not list it"));
    CHECK_THAT(faults_after([](const PackFolder& pack) {
                   fs::rename(pack.path() + "/cautions.csv", pack.path() + "/kept.txt");
                   fs::create_symlink("kept.txt", pack.path() + "/cautions.csv");
               }),
               Catch::StartsWith("datapackage.json: resources[13].path: cautions.csv is a symbolic link"));
    CHECK_THAT(faults_after([](const PackFolder& pack) {
                   fs::remove(pack.path() + "/cautions.csv");
                   fs::create_directory(pack.path() + "/cautions.csv");
               }),
               Catch::StartsWith("datapackage.json: resources[13].path: cautions.csv is not a regular file"));
    CHECK_THAT(faults_after([](const PackFolder& pack) { pack.write("datapackage.json", std::string(100'000, '[')); }),
               Catch::StartsWith("datapackage.json: nested more than 32 deep"));
    CHECK_THAT(faults_after([](const PackFolder& pack) { pack.write("datapackage.json", "[]"); }),
               Catch::StartsWith("datapackage.json: it is array: a descriptor is an object"));
    CHECK_THAT(faults_after([](const PackFolder& pack) {
                   pack.write("datapackage.json", "\"" + std::string(5'000'000, 'x') + "\"");
               }),
               Catch::StartsWith("datapackage.json: larger than"));
    CHECK_THAT(faults_after([](const PackFolder& pack) { pack.write("datapackage.json", ""); }),
               Catch::StartsWith("datapackage.json:1:1: not JSON"));
    CHECK_THROWS_WITH(load_pack(PackFolder(yard()).path() + "/none", catalog.path(), plugins()),
                      Catch::Contains("no such folder"));
}

TEST_CASE("at most 1,000 faults are listed, and the rest are counted") {
    auto files = yard();
    for (int i = 0; i < 1500; ++i) files["jobs.csv"] += ",,,\n";
    const CatalogFolder catalog;
    const auto report = load_pack(PackFolder(files).path(), catalog.path(), plugins());
    REQUIRE(report.faults.size() == 1001);
    CHECK(report.faults.back().text() == "500 more faults not listed: mend these first");
}
