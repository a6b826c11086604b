#include <concepts>
#include <string>

#include <catch2/catch.hpp>

#include "fingerway/music/pitch.hpp"

using namespace fingerway;

namespace {

template <class A, class B>
concept comparable = requires(A a, B b) {
  a == b;
};
template <class A, class B>
concept subtractable = requires(A a, B b) {
  a - b;
};

static_assert(comparable<WrittenPitch, WrittenPitch> && !comparable<WrittenPitch, SoundingPitch>,
              "written and sounding pitch do not mix");
static_assert(subtractable<WrittenPitch, WrittenPitch> && !subtractable<WrittenPitch, SoundingPitch>);
static_assert(!std::convertible_to<WrittenPitch, SoundingPitch> &&
              !std::constructible_from<SoundingPitch, WrittenPitch>);
static_assert(!std::convertible_to<int, WrittenPitch>, "a pitch is made on purpose");
static_assert(std::same_as<decltype(WrittenPitch(60) - WrittenPitch(59)), Semitones>);

}  // namespace

TEST_CASE("spellings name MIDI key numbers") {
  // MIDI 1.0 numbers keys 0 to 127; middle C is 60 and is called C4 (common practice).
  CHECK(written({'C', 0, 4}).key == 60);
  CHECK(written({'A', 0, 4}).key == 69);
  CHECK(written({'C', 0, -1}).key == 0);
  CHECK(written({'G', 0, 9}).key == 127);
  // The lowest note of the bassoon, B flat 1 (common practice).
  CHECK(written({'B', -1, 1}).key == 34);
}

TEST_CASE("the octave changes at C, whatever the alteration") {
  CHECK(written({'B', 1, 3}) == written({'C', 0, 4}));
  CHECK(written({'C', -1, 4}) == written({'B', 0, 3}));
  CHECK(written({'C', 1, 4}) == written({'D', -1, 4}));
  CHECK(written({'F', 2, 3}) == written({'G', 0, 3}));
}

TEST_CASE("frequencies follow A4 = 440 Hz in equal temperament") {
  // ISO 16: A4 = 440 Hz. The others: twelve-tone equal temperament, as tabulated in acoustics textbooks.
  CHECK(frequency(SoundingPitch(69)).value() == Approx(440.0).epsilon(1e-12));
  CHECK(frequency(SoundingPitch(57)).value() == Approx(220.0).epsilon(1e-12));
  CHECK(frequency(SoundingPitch(60)).value() == Approx(261.6256).epsilon(1e-6));
  CHECK(frequency(SoundingPitch(34)).value() == Approx(58.2705).epsilon(1e-6));
}

TEST_CASE("a transposition turns written into sounding pitch") {
  // A clarinet in B flat sounds a major second below what is written (common practice).
  CHECK(sounding(written({'C', 0, 5}), {Semitones(-2)}) == SoundingPitch(70));
  CHECK(sounding(written({'C', 0, 5}), {}) == SoundingPitch(72));
}

TEST_CASE("pitch names are read back as they are written") {
  for (const char* text : {"C4", "C#2", "Db2", "F##3", "Bb1", "Bbb0", "G9", "C-1", "A#-1"}) {
    const std::optional<Spelling> spelling = parse_spelling(text);
    REQUIRE(spelling);
    CHECK(name(*spelling) == text);
  }
  CHECK(parse_spelling("Db2") == Spelling{'D', -1, 2});
}

TEST_CASE("what is not a pitch name is not read") {
  for (const char* text : {"", "C", "c4", "H4", "4", "C10", "C-2", "C#b4", "Cb#4", "C###4", "Bbbb3", "C 4", "C4 ",
                           "C4x", "C+4", "Cx4", "#4", "C--1", "C\xC3\xA9"}) {
    INFO(text);
    CHECK_FALSE(parse_spelling(text));
  }
}

TEST_CASE("people read pitch names with typographic signs") {
  CHECK(display_name({'D', -1, 2}) == "D♭2");
  CHECK(display_name({'F', 2, 3}) == "F♯♯3");
  CHECK(display_name({'G', 0, 3}) == "G3");
}

TEST_CASE("charts spell black keys C#, Eb, F#, Ab, Bb") {
  std::string octave;
  for (int key = 48; key < 60; ++key) octave += name(chart_spelling(WrittenPitch(key))) + " ";
  CHECK(octave == "C3 C#3 D3 Eb3 E3 F3 F#3 G3 Ab3 A3 Bb3 B3 ");
  CHECK(chart_spelling(WrittenPitch(0)) == Spelling{'C', 0, -1});
  CHECK(chart_spelling(WrittenPitch(-1)) == Spelling{'B', 0, -2});
}

TEST_CASE("a chart spelling names the pitch it was made for") {
  for (int key = -13; key <= 140; ++key) CHECK(written(chart_spelling(WrittenPitch(key))).key == key);
}
