/* What is kept without power, when power fails. */
#include <stdio.h>
#include <string.h>

#include "check.h"
#include "talk.h"

static char serial[20];
static char calibration[20];

static void note_ids(const char *detail) {
  if (strstr(detail, " + jig ") != NULL) {
    sscanf(strstr(detail, " serial="), " serial=%19s calibration=%19s", serial, calibration);
  }
}

static void read_ids(void) {
  serial[0] = calibration[0] = '\0';
  talk_aside = note_ids;
  talk_ask("8 identify");
}

static void restart(void) {
  desk_restart(CAUSE_POWER);
  talk_line(100);
}

static void ids_last_without_power(void) {
  talk_begin();
  talk_ask("1 store serial=ABCDEFGH-abc-789");
  talk_ask("2 store calibration=2026-A");
  restart();
  read_ids();
  CHECK(strcmp(serial, "ABCDEFGH-abc-789") == 0 && strcmp(calibration, "2026-A") == 0, "%s %s", serial,
        calibration);
}

static void a_fresh_memory_holds_no_ids(void) {
  for (int filler = 0; filler < 256; filler++) {
    talk_begin();
    memset(desk.keep, filler, sizeof desk.keep);
    read_ids();
    CHECK(strcmp(serial, "none") == 0 && strcmp(calibration, "none") == 0, "filled with %02X: %s %s", filler,
          serial, calibration);
  }
}

/* The same store, cut in the write after so many; false when it was over before that. */
static bool store_and_cut(int32_t writes, int16_t torn) {
  desk.keep_writes_left = writes;
  desk.keep_torn = torn;
  bool cut = setjmp(desk.power_failed) != 0;
  if (!cut) {
    talk_ask("3 store serial=NEW-SERIAL-00042");
  }
  desk.keep_writes_left = -1;
  restart();
  return cut;
}

static int cut_at_every_write(int stores_before, int16_t torn) {
  int32_t writes = 0;
  for (;; writes++) {
    talk_begin();
    for (int i = 0; i < stores_before; i++) {
      talk_ask("1 store serial=OLD");
      talk_ask("2 store calibration=C-%d", i);
      talk_ask("2 store serial=OLD-1");
    }
    bool cut = store_and_cut(writes, torn);
    read_ids();
    const char *old = stores_before == 0 ? "none" : "OLD-1";
    bool is_old = strcmp(serial, old) == 0;
    bool is_new = strcmp(serial, "NEW-SERIAL-00042") == 0;
    CHECK(is_old || is_new, "cut after %d writes (torn %d): serial is %s", writes, torn, serial);
    char kept[20] = "none";
    if (stores_before > 0) {
      snprintf(kept, sizeof kept, "C-%d", stores_before - 1);
    }
    CHECK(strcmp(calibration, kept) == 0, "cut after %d writes: calibration is %s", writes, calibration);
    CHECK(cut || is_new, "not cut, and yet %s", serial);
    const char *reply = talk_ask("4 store serial=AFTER");
    CHECK(talk_begins(reply, "4 ok"), "cut after %d writes: %s", writes, reply);
    read_ids();
    CHECK(strcmp(serial, "AFTER") == 0, "cut after %d writes: then %s", writes, serial);
    if (!cut) {
      return writes;
    }
  }
}

static void a_cut_at_any_byte_leaves_the_old_or_the_new(void) {
  int cuts = 0;
  static const int16_t torn[] = {-1, 0x00, 0xFF, 0x55, 0xA7};
  for (size_t t = 0; t < sizeof torn / sizeof torn[0]; t++) {
    for (int before = 0; before <= 2; before++) {
      int writes = cut_at_every_write(before, torn[t]);
      CHECK(writes >= 17, "only %d writes", writes);
      cuts += writes;
    }
  }
  check_note("%d cuts", cuts);
}

static void running_numbers_go_round(void) {
  talk_begin();
  for (int i = 0; i < 600; i++) {
    talk_ask("1 store serial=S-%d", i);
    restart();
    read_ids();
    char expected[20];
    snprintf(expected, sizeof expected, "S-%d", i);
    CHECK(strcmp(serial, expected) == 0, "after %d stores: %s", i + 1, serial);
  }
}

static void a_worn_byte_is_told(void) {
  int told = 0;
  for (int16_t worn = 0; worn < 70; worn++) {
    talk_begin();
    talk_ask("1 store serial=AAAAAAAAAAAAAAAA");
    talk_ask("1 store calibration=AAAAAAAAAAAAAAAA");
    memset(serial, 0, sizeof serial);
    desk.keep_worn = worn;
    const char *reply = talk_ask("2 store serial=BBBBBBBBBBBBBBBB");
    bool failed = strcmp(reply, "2 no 41 store-failed") == 0;
    read_ids();
    bool is_new = strcmp(serial, "BBBBBBBBBBBBBBBB") == 0;
    CHECK(failed != is_new, "byte %d worn: %s, and then %s", worn, failed ? "failed" : "accepted", serial);
    told += failed;
  }
  CHECK(told >= 17, "told %d times", told);
  check_note("%d of 70 bytes", told);
}

static void one_damaged_copy_leaves_the_other(void) {
  for (unsigned at = 0; at < BOARD_KEEP_BYTES; at++) {
    talk_begin();
    talk_ask("1 store serial=FIRST");
    talk_ask("2 store serial=SECOND");
    desk.keep[at] ^= 0x10;
    read_ids();
    CHECK(strcmp(serial, "FIRST") == 0 || strcmp(serial, "SECOND") == 0, "byte %u damaged: %s", at, serial);
  }
}

const struct test keep_tests[] = {
    {"ids last without power", ids_last_without_power},
    {"a fresh memory holds no ids", a_fresh_memory_holds_no_ids},
    {"a power cut at any byte leaves the old or the new", a_cut_at_any_byte_leaves_the_old_or_the_new},
    {"running numbers go round", running_numbers_go_round},
    {"a byte that does not take its value is told", a_worn_byte_is_told},
    {"one damaged copy leaves the other", one_damaged_copy_leaves_the_other},
    {NULL, NULL}};
