#include "fingerway/read/score_bytes.hpp"

#include <cstdlib>
#include <random>
#include <string>
#include <string_view>

#include <catch2/catch.hpp>

#include "fingerway/base/errors.hpp"
#include "read/archive.hpp"
#include "support/scratch_folder.hpp"

using namespace fingerway;
using namespace std::string_literals;

namespace {

/// A UTF-8 text as wide letters, by hand: only for letters of the basic plane given as char16_t.
std::string wide(std::u16string_view text, std::size_t bytes, bool big_end_first) {
  std::string out;
  for (const char16_t c : text) {
    for (std::size_t k = 0; k < bytes; ++k) {
      const std::size_t shift = 8 * (big_end_first ? bytes - 1 - k : k);
      out += static_cast<char>(static_cast<unsigned char>(shift > 8 ? 0 : (c >> shift) & 0xFF));
    }
  }
  return out;
}

std::string fault_in(const std::string& bytes) {
  try {
    static_cast<void>(parse_score_bytes(bytes, "a.mxl"));
  } catch (const InputError& error) {
    return error.what();
  }
  return "no fault";
}

const std::string score = "<score-partwise>\u00e9</score-partwise>";
const auto container = container_for({{"a.xml", ""}});

}  // namespace

TEST_CASE("a score in UTF-8 stays as it is, with or without byte order mark") {
  const ScoreFile plain = parse_score_bytes(score, "a");
  CHECK(plain.text == score);
  CHECK(plain.encoding == Encoding::utf8);
  CHECK_FALSE(plain.byte_order_mark);
  CHECK_FALSE(plain.container);
  CHECK(score_bytes(plain, score + "\u266F") == score + "\u266F");
  const ScoreFile marked = parse_score_bytes("\xEF\xBB\xBF" + score, "a");
  CHECK(marked.text == score);
  CHECK(marked.byte_order_mark);
  CHECK(score_bytes(marked, marked.text) == "\xEF\xBB\xBF" + score);
}

TEST_CASE("texts of two and four bytes a letter are read and written back, either end first") {
  struct Case {
    Encoding encoding;
    std::size_t bytes;
    bool big_end_first;
  };
  for (const Case& c : {Case{Encoding::utf16le, 2, false}, Case{Encoding::utf16be, 2, true},
                        Case{Encoding::utf32le, 4, false}, Case{Encoding::utf32be, 4, true}}) {
    for (const bool mark : {true, false}) {
      const std::u16string_view letters = u"<a>\u00e9\u266F</a>";
      const std::string bytes =
          (mark ? wide(u"\uFEFF", c.bytes, c.big_end_first) : "") + wide(letters, c.bytes, c.big_end_first);
      const ScoreFile file = parse_score_bytes(bytes, "a");
      CHECK(file.text == "<a>\u00e9\u266F</a>");
      CHECK(file.encoding == c.encoding);
      CHECK(file.byte_order_mark == mark);
      CHECK(score_bytes(file, file.text) == bytes);
    }
  }
}

TEST_CASE("letters beyond the basic plane are two units in UTF-16") {
  // Unicode Standard, table 3-5: U+10302 is D800 DF02.
  const std::string bytes = "\xFF\xFE<\0a\0>\0\x00\xD8\x02\xDF<\0/\0a\0>\0"s;
  const ScoreFile file = parse_score_bytes(bytes, "a");
  CHECK(file.text == "<a>\xF0\x90\x8C\x82</a>");
  CHECK(score_bytes(file, file.text) == bytes);
  CHECK_THROWS_AS(parse_score_bytes("\xFF\xFE<\0\x00\xD8"s, "a"), InputError);
  CHECK_THROWS_AS(parse_score_bytes("\xFF\xFE<\0\x02\xDF>\0"s, "a"), InputError);
  CHECK_THROWS_WITH(parse_score_bytes("\xFF\xFE<\0a"s, "a"),
                    "a:1:2: the text ends inside a letter (the file may be damaged)");
}

TEST_CASE("a declared one-byte encoding is read, and letters it lacks are written as numbers") {
  const std::string latin = "<?xml version='1.0' encoding='ISO-8859-1'?><a>\xE9\xA0</a>";
  const ScoreFile file = parse_score_bytes(latin, "a");
  CHECK(file.encoding == Encoding::latin1);
  CHECK(file.text.ends_with("<a>\u00e9\u00a0</a>"));
  CHECK(score_bytes(file, file.text) == latin);
  CHECK(score_bytes(file, "<a>\u00e9\u266F</a>") == "<a>\xE9&#9839;</a>");

  // Unicode Consortium, CP1252.TXT: 0x80 is U+20AC, 0x92 is U+2019, 0x9F is U+0178.
  const std::string windows = "<?xml version='1.0' encoding=\"Windows-1252\"?><a>\x80\x92\x9F\xE9\x81</a>";
  const ScoreFile other = parse_score_bytes(windows, "a");
  CHECK(other.encoding == Encoding::windows1252);
  CHECK(other.text.ends_with("<a>\u20AC\u2019\u0178\u00e9\u0081</a>"));
  CHECK(score_bytes(other, other.text) == windows);

  // Encodings we do not know keep their bytes.
  const std::string unknown = "<?xml version='1.0' encoding='KOI8-R'?><a>\xC1\xC2\xFF</a>";
  CHECK(score_bytes(parse_score_bytes(unknown, "a"), parse_score_bytes(unknown, "a").text) == unknown);
}

TEST_CASE("what was decoded once is the same when it is decoded again") {
  for (const std::string& bytes :
       {std::string("<?xml version='1.0' encoding='ISO-8859-1'?><a>\xE9</a>"),
        "\xFF\xFE" + wide(u"<?xml version='1.0' encoding='UTF-16'?><a>\u00e9</a>", 2, false), score}) {
    const std::string text = parse_score_bytes(bytes, "a").text;
    CHECK(parse_score_bytes(text, "a").text == text);
  }
}

TEST_CASE("bytes that are no text are refused by line and column") {
  CHECK(fault_in("<a>\n<b>\xE9</b></a>") == "a.mxl:2:4: not text in UTF-8 (is it a MusicXML file?)");
  CHECK(fault_in("<a>\x02</a>").starts_with("a.mxl:1:4: "));
  CHECK(fault_in("<?xml version='1.0' encoding='latin1'?>\n\x1B") ==
        "a.mxl:2:1: a control character that XML does not allow (is it a MusicXML file?)");
}

TEST_CASE("a compressed score is read through its container and written back into it") {
  const Entries entries = {{"mimetype", "application/vnd.recordare.musicxml"},
                           container_for({{"cover.pdf", "application/pdf"}, {"music/a.xml", ""}}),
                           {"other.xml", "<x/>"},
                           {"music/a.xml", score},
                           {"cover.pdf", std::string("%PDF\0\1", 6)}};
  const std::string bytes = archive_of(entries);
  const ScoreFile file = parse_score_bytes(bytes, "a.mxl");
  CHECK(file.text == score);
  REQUIRE(file.container);
  CHECK(file.container->name == "music/a.xml");

  const std::string written = score_bytes(file, "<new/>");
  Entries expected = entries;
  expected[3].second = "<new/>";
  CHECK(entries_of(written) == expected);
  CHECK(score_bytes(file, "<new/>") == written);
  const ScoreFile again = parse_score_bytes(written, "a.mxl");
  CHECK(again.text == "<new/>");
  CHECK(entries_of(score_bytes(again, score)) == entries);
  CHECK(score_bytes(again, score) == bytes);
}

TEST_CASE("an archive another program made comes back byte for byte when its score does") {
  std::string text = "<score-partwise>";
  for (int i = 0; i < 9000; ++i) text += "<n>" + std::to_string(i * 7919 % 10007) + "</n>";
  text += "</score-partwise>";
  const ScratchFolder scratch;
  const std::string plain = scratch.write("a.xml", text).string();
  const std::string packed = (scratch.path() / "a.mxl").string();
  // The second is written to a pipe: its sizes stand behind the data (a data descriptor).
  for (const std::string& to : {"'" + packed + "'", "/dev/stdout | cat >'" + packed + "'"}) {
    INFO(to);
    const std::string make =
        "python3 -c \"import sys, zipfile; z = zipfile.ZipFile(open(sys.argv[2], 'wb'), 'w', 8); "
        "z.write(sys.argv[1], 'a.xml'); z.writestr('b.txt', 'b' * 99); z.close()\" '" +
        plain + "' " + to;
    if (std::system(make.c_str()) != 0) {
      WARN("not checked: there is no python3");
      return;
    }
    const ScoreFile file = load_score(packed);
    const std::string other = score_bytes(file, "<other>text, and more of it</other>");
    CHECK(entries_of(other) ==
          Entries{{"a.xml", "<other>text, and more of it</other>"}, {"b.txt", std::string(99, 'b')}});
    const ScoreFile changed = parse_score_bytes(other, "a.mxl");
    CHECK(score_bytes(changed, text) == file.container->archive);
  }
}

TEST_CASE("a compressed score may be in UTF-16 and lie in a file of any name") {
  const std::string utf16 = "\xFE\xFF" + wide(u"<a>\u266F</a>", 2, true);
  const ScratchFolder scratch;
  const auto path = scratch.write("score.xml", archive_of({container, {"a.xml", utf16}}));
  const ScoreFile file = load_score(path);
  CHECK(file.text == "<a>\u266F</a>");
  CHECK(entries_of(score_bytes(file, file.text))[1].second == utf16);
  CHECK_THROWS_AS(load_score(scratch.path() / "none.mxl"), FileError);
}

TEST_CASE("without a container file, or one whose name is not found, the only score is taken") {
  CHECK(parse_score_bytes(archive_of({{"b.musicxml", score}, {"c.txt", ""}}), "a").text == score);
  CHECK(parse_score_bytes(archive_of({container_for({{"caf\u00e9.xml", ""}}), {"cafe.xml", score}}), "a").text ==
        score);
  CHECK(fault_in(archive_of({{"b.xml", score}, {"c.xml", score}})) ==
        "a.mxl: the archive has several scores and does not say which to read (unpack it and read one of them)");
  CHECK(fault_in(archive_of({container_for({{"d.xml", ""}}), {"b.xml", score}, {"c.xml", score}})) ==
        "a.mxl: the archive has no entry 'd.xml', which its container file names (unpack it and read one of them)");
  CHECK(fault_in(archive_of({{"b.txt", score}})) == "a.mxl: the archive holds no score (is it a MusicXML file?)");
  CHECK(fault_in(archive_of({{"META-INF/container.xml", "<container"}, {"a.xml", score}})) ==
        "a.mxl: META-INF/container.xml is not XML (save it uncompressed, as .musicxml)");
}

TEST_CASE("unsafe and doubled names in an archive are refused") {
  for (const char* const name : {"../a.xml", "/a.xml", "x/../../a.xml", "x\\a.xml", "C:/a.xml"}) {
    INFO(name);
    CHECK(fault_in(archive_of({{name, score}})).find("unsafe name") != std::string::npos);
    CHECK(fault_in(archive_of({container_for({{name, ""}}), {"a.xml", score}})).find("no file in the archive") !=
          std::string::npos);
  }
  CHECK(fault_in(archive_of({container_for({{"x/", ""}}), {"x/", ""}, {"a.xml", score}}))
            .find("no file in the archive") != std::string::npos);
  std::string doubled = archive_of({container, {"a.xml", score}, {"b.xml", "<other/>"}});
  for (std::size_t i = doubled.find("b.xml"); i != std::string::npos; i = doubled.find("b.xml")) doubled[i] = 'a';
  CHECK(fault_in(doubled) == "a.mxl: the archive has two entries named 'a.xml' (save it uncompressed, as .musicxml)");
}

TEST_CASE("archives that unpack to far more than they are, or to many entries, are refused unread") {
  CHECK(fault_in(archive_of({container, {"a.xml", std::string(std::size_t{20} << 20U, ' ')}})) ==
        "a.mxl: the archive unpacks to more than 200 times its size (save it uncompressed, as .musicxml)");
  Entries many = {container, {"a.xml", score}};
  for (int i = 0; i < 10'000; ++i) many.emplace_back(std::to_string(i), "");
  CHECK(fault_in(archive_of(many)) ==
        "a.mxl: the archive has more than 10,000 entries (save it uncompressed, as .musicxml)");
  // Sizes are little-endian at 24 in an entry of the central directory ("PK\1\2"); APPNOTE 6.3, section 4.3.12.
  std::string lying = archive_of({container, {"a.xml", score}});
  const std::size_t entry = lying.rfind("PK\1\2");
  lying[entry + 24 + 3] = '\x7F';
  CHECK(fault_in(lying) == "a.mxl: the archive unpacks to more than 1 GiB (save it uncompressed, as .musicxml)");
  std::string small = archive_of({container, {"a.xml", std::string(5000, 'a')}});
  small[small.rfind("PK\1\2") + 25] = 1;
  CHECK(fault_in(small).find("damaged") != std::string::npos);
}

TEST_CASE("an encrypted archive is refused") {
  std::string bytes = archive_of({container, {"a.xml", score}});
  // Bit 0 of the flags: at 6 in a local header, at 8 in the central directory. APPNOTE 6.3, section 4.4.4.
  for (std::size_t i = bytes.find("PK\3\4"); i != std::string::npos; i = bytes.find("PK\3\4", i + 1)) bytes[i + 6] |= 1;
  for (std::size_t i = bytes.find("PK\1\2"); i != std::string::npos; i = bytes.find("PK\1\2", i + 1)) bytes[i + 8] |= 1;
  CHECK(fault_in(bytes) == "a.mxl: the archive is encrypted (save it without a password)");
}

TEST_CASE("a cut or damaged archive is refused with a sentence, or read whole") {
  std::string text = "<score-partwise>";
  for (int i = 0; i < 200; ++i) text += "<a n=\"" + std::to_string(i * 7919 % 1000) + "\"/>";
  const std::string whole = archive_of({container, {"a.xml", text}});
  for (std::size_t size = 4; size < whole.size(); size += 7) {
    CHECK(fault_in(whole.substr(0, size)).starts_with("a.mxl: the archive is cut short or damaged"));
  }
  std::mt19937 random(7);
  int refused = 0;
  for (int round = 0; round < 300; ++round) {
    std::string damaged = whole;
    damaged[4 + random() % (damaged.size() - 4)] = static_cast<char>(random() % 256);
    try {
      const ScoreFile file = parse_score_bytes(damaged, "a");
      CHECK(file.text == text);
      const std::string written = score_bytes(file, "<b/>");
      CHECK(parse_score_bytes(written, "a").text == "<b/>");
    } catch (const InputError& error) {
      CHECK_FALSE(error.faults().empty());
      ++refused;
    } catch (const FileError& error) {
      CHECK(error.fault().what == "the archive is built in a way that is not written");
    }
  }
  CHECK(refused > 150);
}

TEST_CASE("an archive whose two directories disagree is read, and not written to harm") {
  // Found by fuzzing: the header before the entry says that its sizes stand behind it, the directory does not.
  const std::string text = score + std::string(300, ' ');
  std::string archive = archive_of({container, {"a.xml", text}});
  const std::size_t header = archive.find("a.xml") - 30;
  REQUIRE(archive.compare(header, 4, "PK\3\4") == 0);
  archive[header + 6] = static_cast<char>(static_cast<unsigned char>(archive[header + 6]) | 0x08U);
  const ScoreFile file = parse_score_bytes(archive, "a.mxl");
  REQUIRE(file.text == text);
  CHECK_THROWS_AS(score_bytes(file, "<b/>"), FileError);
}
