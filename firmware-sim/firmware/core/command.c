#include "command.h"

#include <stddef.h>
#include <string.h>

#include "board.h"
#include "crc.h"
#include "identify.h"
#include "jig.h"
#include "keep.h"
#include "out.h"
#include "recorder.h"
#include "tick.h"
#include "wave.h"

#define STEP_MAX 2147483647
#define MILLIHERTZ_MAX 2000000
#define POINTS_MIN 16
#define LOAD_MAX 48
#define BLOCK_CHARACTERS 128
/* ": ii ssss " before the data, " ~hhhh" and the line end after it. */
#define BLOCK_OVERHEAD 17

/* Why a request is refused: filled in by the first check that fails. */
static struct {
  enum jig_error error;
  flash_text field;  /* NULL: none */
  const char *given; /* a number as it came, or NULL */
  int32_t given_number;
  int32_t low;
  int32_t high;
} why;

/* For ERROR_FIELD_UNKNOWN and _TWICE found at the table: the field as it came, its key checked to be 1
 * to 16 of a-z 0-9 _. */
static const char *wrong_key;

static int16_t limit_peak = BOARD_LEVEL_MAX;

static const struct request *now_asked;

/* ---- refusing ---- */

static bool refuse(enum jig_error error, flash_text field) {
  why.error = error;
  why.field = field;
  return false;
}

static bool out_of_range(flash_text field, const char *given, int32_t number, int32_t low,
                         int32_t high) {
  why.given = given;
  why.given_number = number;
  why.low = low;
  why.high = high;
  return refuse(ERROR_VALUE_OUT_OF_RANGE, field);
}

static const char name_none[] IN_FLASH = "";
#define NAME_OF(id, name) static const char name_##id[] IN_FLASH = name;
ERROR_ROWS(NAME_OF)

static flash_text name_of(enum jig_error error) {
#define CASE_OF(id, name) \
  case id:                \
    return name_##id;
  switch (error) {
    ERROR_ROWS(CASE_OF)
    case ERROR_NONE:
    default:
      return name_none;
  }
}

/* A number of at most ten digits as the specification writes it: no leading zeros, no "-0". */
static void out_as_given(const char *given) {
  bool negative = *given == '-';
  if (negative) {
    given++;
  }
  while (*given == '0' && given[1] != '\0') {
    given++;
  }
  if (negative && *given != '0') {
    out_char('-');
  }
  out_string(given);
}

static void out_details(void) {
  if (why.field != NULL) {
    out_field_text(TEXT("field"), why.field);
  } else if (wrong_key != NULL) {
    out_key(TEXT("field"));
    for (const char *c = wrong_key; *c != '='; c++) {
      out_char(*c);
    }
  }
  switch (why.error) {
    case ERROR_VALUE_OUT_OF_RANGE:
      out_key(TEXT("given"));
      if (why.given != NULL) {
        out_as_given(why.given);
      } else {
        out_s32(why.given_number);
      }
      out_field_s32(TEXT("low"), why.low);
      out_field_s32(TEXT("high"), why.high);
      break;
    case ERROR_ABOVE_LIMIT:
      out_field_s32(TEXT("given"), why.given_number);
      out_field_s32(TEXT("high"), why.high);
      break;
    case ERROR_LINK_TOO_SLOW:
      out_field_s32(TEXT("needs"), why.given_number);
      out_field_s32(TEXT("has"), why.high);
      break;
    default:
      break;
  }
}

static void out_refusal(uint16_t tag, bool unchecked) {
  jig_halt(TEXT("refused"));
  out_u32(tag);
  out_text(TEXT(" no "));
  out_u32(why.error);
  out_char(' ');
  out_text(name_of(why.error));
  out_details();
  if (unchecked) {
    out_text(TEXT(" checked=no"));
  }
  out_end();
}

static void forget_why(void) {
  memset(&why, 0, sizeof why);
  wrong_key = NULL;
}

void command_refuse_line(enum jig_error error) {
  forget_why();
  jig_count(&jig_counters.damaged);
  refuse(error, NULL);
  out_refusal(0, false);
}

/* ---- accepting ---- */

static void ok_begin(void) {
  jig_between_lines(); /* finding the answer took its time */
  out_u32(now_asked->tag);
  out_text(TEXT(" ok"));
}

static void ok_end(void) {
  if (!now_asked->checked) {
    out_text(TEXT(" checked=no"));
  }
  out_end();
}

static bool ok(void) {
  ok_begin();
  ok_end();
  return true;
}

/* ---- fields ---- */

static const char *find(flash_text key) { return request_value(now_asked, key); }

static bool has(flash_text key) { return find(key) != NULL; }

static bool refuse_if_there(flash_text key) {
  return has(key) ? refuse(ERROR_FIELD_UNKNOWN, key) : true;
}

static bool text(flash_text key, const char **into) {
  *into = find(key);
  return *into != NULL ? true : refuse(ERROR_FIELD_MISSING, key);
}

static bool number(flash_text key, int32_t low, int32_t high, int32_t *into) {
  const char *value;
  bool negative;
  uint32_t magnitude;
  if (!text(key, &value)) {
    return false;
  }
  if (!request_number(value, &negative, &magnitude)) {
    return refuse(ERROR_VALUE_MALFORMED, key);
  }
  if (magnitude > INT32_MAX) {
    return out_of_range(key, value, 0, low, high);
  }
  *into = negative ? -(int32_t)magnitude : (int32_t)magnitude;
  if (*into < low || *into > high) {
    return out_of_range(key, value, 0, low, high);
  }
  return true;
}

static bool power_of_two(flash_text key, int32_t low, int32_t high, uint16_t *into) {
  int32_t value;
  if (!number(key, low, high, &value)) {
    return false;
  }
  if ((value & (value - 1)) != 0) {
    return refuse(ERROR_VALUE_MALFORMED, key);
  }
  *into = (uint16_t)value;
  return true;
}

/* ---- commands ---- */

static bool obey_identify(void) {
  uint8_t lines = identify_details(now_asked->tag);
  ok_begin();
  out_field_u32(TEXT("lines"), lines);
  ok_end();
  return true;
}

static int8_t digit64(char c) {
  if (c >= 'A' && c <= 'Z') {
    return (int8_t)(c - 'A');
  }
  if (c >= 'a' && c <= 'z') {
    return (int8_t)(c - 'a' + 26);
  }
  if (c >= '0' && c <= '9') {
    return (int8_t)(c - '0' + 52);
  }
  if (c == '+' || c == '/') {
    return c == '+' ? 62 : 63;
  }
  return -1;
}

/* How many bytes base64 holds, or -1 when it is malformed. The value has at most two "=", at its end. */
static int16_t size64(const char *data) {
  uint8_t digits = 0;
  uint8_t pads = 0;
  for (; *data != '\0'; data++) {
    if (*data == '=') {
      pads++;
    } else if (digit64(*data) < 0) {
      return -1;
    } else {
      digits++;
    }
  }
  if ((uint8_t)(digits + pads) % 4U != 0) {
    return -1;
  }
  return (int16_t)(digits * 3U / 4U);
}

/* size64() has looked at the data. */
static void store64(const char *data, uint16_t at, uint8_t count) {
  uint16_t bits = 0;
  uint8_t have = 0;
  while (count > 0) {
    bits = (uint16_t)((uint16_t)(bits << 6) | (uint8_t)digit64(*data++));
    have = (uint8_t)(have + 6U);
    if (have >= 8) {
      have = (uint8_t)(have - 8U);
      int8_t point = (int8_t)(bits >> have);
      wave_points[at++] = point == INT8_MIN ? -INT8_MAX : point;
      count--;
    }
  }
}

static bool obey_load(void) {
  int32_t at;
  const char *data;
  if (!number(TEXT("at"), 0, BOARD_WAVE_POINTS - 1, &at) || !text(TEXT("data"), &data)) {
    return false;
  }
  int16_t count = size64(data);
  if (count < 0) {
    return refuse(ERROR_VALUE_MALFORMED, TEXT("data"));
  }
  if (count > LOAD_MAX) {
    return out_of_range(TEXT("data"), NULL, count, 1, LOAD_MAX);
  }
  if (at + count > BOARD_WAVE_POINTS) {
    return out_of_range(TEXT("at"), NULL, at, 0, BOARD_WAVE_POINTS - count);
  }
  if (wave_now.kind == WAVE_TABLE) {
    return refuse(ERROR_BUSY, NULL);
  }
  store64(data, (uint16_t)at, (uint8_t)count);
  ok_begin();
  out_field_u32(TEXT("points"), (uint32_t)count);
  ok_end();
  return true;
}

static bool step(uint32_t *into) {
  int32_t value;
  if (has(TEXT("step")) || !has(TEXT("millihertz"))) {
    if (!number(TEXT("step"), 0, STEP_MAX, &value)) {
      return false;
    }
    *into = (uint32_t)value;
    return refuse_if_there(TEXT("millihertz"));
  }
  if (!number(TEXT("millihertz"), 1, MILLIHERTZ_MAX, &value)) {
    return false;
  }
  /* 2 000 000 x 2^32 x 1024 < 2^63; half the divisor rounds half up. */
  const uint64_t divisor = 1000ULL * BOARD_CLOCK_HZ;
  *into = (uint32_t)((((uint64_t)(uint32_t)value << 32) * BOARD_TICK_CYCLES + divisor / 2) / divisor);
  return true;
}

static bool hex4(const char *value, uint16_t *into) {
  uint16_t result = 0;
  uint8_t i = 0;
  for (; value[i] != '\0'; i++) {
    char c = value[i];
    uint8_t nibble;
    if (c >= '0' && c <= '9') {
      nibble = (uint8_t)(c - '0');
    } else if (c >= 'A' && c <= 'F') {
      nibble = (uint8_t)(c - 'A' + 10);
    } else if (c >= 'a' && c <= 'f') {
      nibble = (uint8_t)(c - 'a' + 10);
    } else {
      return refuse(ERROR_VALUE_MALFORMED, TEXT("crc"));
    }
    result = (uint16_t)((uint16_t)(result << 4) | nibble);
  }
  *into = result;
  return i == 4 ? true : refuse(ERROR_VALUE_MALFORMED, TEXT("crc"));
}

static uint16_t table_crc(uint16_t points) {
  uint16_t crc = CRC_START;
  for (uint16_t i = 0; i < points; i++) {
    if (i % 128U == 0) {
      jig_between_lines(); /* 1024 points take longer than the queue of samples holds */
    }
    crc = crc_add(crc, (uint8_t)wave_points[i]);
  }
  return crc_finish(crc);
}

struct play {
  struct wave wave;
  uint32_t step;
  uint16_t points;
  int32_t level;
  int32_t dc;
  bool with_crc;
  uint16_t crc;
};

static bool level_and_dc(struct play *play) {
  if (!number(TEXT("level"), 0, BOARD_LEVEL_MAX, &play->level)) {
    return false;
  }
  return !has(TEXT("dc")) || number(TEXT("dc"), -BOARD_LEVEL_MAX, BOARD_LEVEL_MAX, &play->dc);
}

static bool read_tone(struct play *play) {
  play->wave.kind = WAVE_TONE;
  play->points = WAVE_SINE_POINTS;
  return refuse_if_there(TEXT("points")) && step(&play->step) && level_and_dc(play) &&
         refuse_if_there(TEXT("crc"));
}

static bool read_table(struct play *play) {
  play->wave.kind = WAVE_TABLE;
  if (!power_of_two(TEXT("points"), POINTS_MIN, BOARD_WAVE_POINTS, &play->points) ||
      !step(&play->step) || !level_and_dc(play)) {
    return false;
  }
  play->with_crc = has(TEXT("crc"));
  return !play->with_crc || hex4(find(TEXT("crc")), &play->crc);
}

static bool read_dc(struct play *play) {
  play->wave.kind = WAVE_DC;
  return refuse_if_there(TEXT("points")) && refuse_if_there(TEXT("step")) &&
         refuse_if_there(TEXT("millihertz")) && refuse_if_there(TEXT("level")) &&
         number(TEXT("dc"), -BOARD_LEVEL_MAX, BOARD_LEVEL_MAX, &play->dc) &&
         refuse_if_there(TEXT("crc"));
}

static bool read_play(struct play *play) {
  const char *kind;
  if (!text(TEXT("wave"), &kind)) {
    return false;
  }
  if (request_is(kind, TEXT("tone"))) {
    return read_tone(play);
  }
  if (request_is(kind, TEXT("table"))) {
    return read_table(play);
  }
  if (request_is(kind, TEXT("dc"))) {
    return read_dc(play);
  }
  return refuse(ERROR_VALUE_MALFORMED, TEXT("wave"));
}

static bool obey_play(void) {
  struct play play;
  memset(&play, 0, sizeof play);
  if (!read_play(&play)) {
    return false;
  }
  int32_t peak = play.level + (play.dc < 0 ? -play.dc : play.dc);
  if (peak > limit_peak) {
    why.given_number = peak;
    why.high = limit_peak;
    return refuse(ERROR_ABOVE_LIMIT, NULL);
  }
  if (play.with_crc && table_crc(play.points) != play.crc) {
    return refuse(ERROR_TABLE_DIFFERS, NULL);
  }
  play.wave.dc = (int16_t)play.dc;
  play.wave.peak = (int16_t)peak;
  play.wave.gain = wave_gain((uint16_t)play.level);
  wave_shape(&play.wave, play.points, play.step);
  jig_before_start();
  uint32_t first = wave_start(&play.wave);
  ok_begin();
  out_field_u32(TEXT("step"), play.step);
  out_field_u32(TEXT("tick"), first);
  ok_end();
  return true;
}

static bool obey_limit(void) {
  int32_t peak;
  if (!number(TEXT("peak"), 0, BOARD_LEVEL_MAX, &peak)) {
    return false;
  }
  if (wave_now.kind != WAVE_NONE && wave_now.peak > peak) {
    return refuse(ERROR_BUSY, NULL);
  }
  limit_peak = (int16_t)peak;
  ok_begin();
  out_field_s32(TEXT("peak"), peak);
  ok_end();
  return true;
}

/* Specification, section 8: what full blocks take, rounded up, against four fifths of the link. */
static bool link_carries(uint8_t channels, uint8_t digits, uint16_t interval, uint8_t block_frames) {
  uint32_t characters = BLOCK_OVERHEAD + (uint32_t)block_frames * channels * digits;
  uint64_t ticks = (uint64_t)BOARD_TICK_CYCLES * interval * block_frames;
  uint32_t needs = (uint32_t)((BOARD_CLOCK_HZ * (uint64_t)characters + ticks - 1) / ticks);
  const uint32_t link_has = (uint32_t)(BOARD_BAUD * 8ULL / 100);
  if (needs > link_has) {
    why.given_number = (int32_t)needs;
    why.high = (int32_t)link_has;
    return refuse(ERROR_LINK_TOO_SLOW, NULL);
  }
  return true;
}

static bool obey_record(void) {
  int32_t channels;
  int32_t frames;
  int32_t skip;
  uint16_t decimate;
  if (!number(TEXT("channels"), 2, BOARD_CHANNELS, &channels) ||
      !number(TEXT("frames"), 1, BOARD_FRAMES_MAX, &frames) ||
      !number(TEXT("skip"), 0, BOARD_SKIP_MAX, &skip) ||
      !power_of_two(TEXT("decimate"), 1, BOARD_DECIMATE_MAX, &decimate)) {
    return false;
  }
  if (jig_recording() != 0) {
    return refuse(ERROR_BUSY, NULL);
  }
  const uint8_t digits = decimate == 1 ? 2 : 3;
  const uint16_t interval = (uint16_t)(decimate * (uint16_t)channels);
  const uint8_t block_frames = (uint8_t)(BLOCK_CHARACTERS / ((uint16_t)channels * digits));
  if (!link_carries((uint8_t)channels, digits, interval, block_frames)) {
    return false;
  }
  const struct recorder_order order = {(uint8_t)channels, (decimation)decimate, (uint32_t)frames,
                                       (uint32_t)skip};
  const struct jig_record record = {jig_next_record(), digits, block_frames, (uint32_t)frames};
  jig_before_start();
  uint32_t first = recorder_begin(&order);
  ok_begin();
  out_field_u32(TEXT("record"), record.id);
  out_field_u32(TEXT("first_tick"), first);
  out_field_u32(TEXT("interval_ticks"), interval);
  out_field_u32(TEXT("block_frames"), block_frames);
  out_field_u32(TEXT("digits"), digits);
  ok_end();
  jig_record_begun(&record);
  return true;
}

static bool obey_stop(void) {
  jig_rest();
  return ok();
}

static bool obey_lamp(void) {
  const char *name;
  const char *state;
  if (!text(TEXT("name"), &name)) {
    return false;
  }
  uint8_t lamp = 0;
  if (request_is(name, TEXT("pass"))) {
    lamp = LAMP_PASS;
  } else if (request_is(name, TEXT("fail"))) {
    lamp = LAMP_FAIL;
  } else if (request_is(name, TEXT("busy"))) {
    lamp = LAMP_BUSY;
  } else {
    return refuse(ERROR_VALUE_MALFORMED, TEXT("name"));
  }
  if (!text(TEXT("state"), &state)) {
    return false;
  }
  enum lamp_state wanted;
  if (request_is(state, TEXT("on"))) {
    wanted = LAMP_ON;
  } else if (request_is(state, TEXT("off"))) {
    wanted = LAMP_OFF;
  } else if (request_is(state, TEXT("blink"))) {
    wanted = LAMP_BLINK;
  } else {
    return refuse(ERROR_VALUE_MALFORMED, TEXT("state"));
  }
  if (!BOARD_HAS_LAMPS) {
    return refuse(ERROR_NOT_FITTED, NULL);
  }
  jig_lamp_calm();
  jig_lamp(lamp, wanted);
  return ok();
}

static bool obey_buzz(void) {
  int32_t milliseconds;
  if (!number(TEXT("milliseconds"), 1, 2000, &milliseconds)) {
    return false;
  }
  if (!BOARD_HAS_BUZZER) {
    return refuse(ERROR_NOT_FITTED, NULL);
  }
  jig_buzz((uint16_t)milliseconds);
  return ok();
}

static bool is_id(const char *value) {
  uint8_t size = 0;
  for (; value[size] != '\0'; size++) {
    char c = value[size];
    bool allowed = (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ||
                   c == '-';
    if (!allowed) {
      return false;
    }
  }
  return size <= KEEP_ID_MAX;
}

static bool obey_store(void) {
  bool serial = has(TEXT("serial")) || !has(TEXT("calibration"));
  flash_text key = serial ? TEXT("serial") : TEXT("calibration");
  const char *id;
  if (!text(key, &id)) {
    return false;
  }
  if (!is_id(id)) {
    return refuse(ERROR_VALUE_MALFORMED, key);
  }
  if (serial && !refuse_if_there(TEXT("calibration"))) {
    return false;
  }
  if (wave_now.kind != WAVE_NONE || jig_recording() != 0) {
    return refuse(ERROR_BUSY, NULL);
  }
  struct keep keep;
  keep_read(&keep);
  char *place = serial ? keep.serial : keep.calibration;
  memset(place, 0, KEEP_ID_MAX + 1);
  if (!request_is(id, TEXT("none"))) {
    strncpy(place, id, KEEP_ID_MAX);
  }
  if (!keep_write(&keep)) {
    return refuse(ERROR_STORE_FAILED, NULL);
  }
  return ok();
}

static flash_text wave_name(void) {
  switch (wave_now.kind) {
    case WAVE_TONE:
      return TEXT("tone");
    case WAVE_TABLE:
      return TEXT("table");
    case WAVE_DC:
      return TEXT("dc");
    default:
      return TEXT("none");
  }
}

static bool obey_status(void) {
  jig_clipping_gather();
  ok_begin();
  out_field_u32(TEXT("tick"), tick_read());
  out_field_text(TEXT("wave"), wave_name());
  out_field_u32(TEXT("recording"), jig_recording());
  out_field_text(TEXT("foot"), jig_foot_down() ? TEXT("down") : TEXT("up"));
  out_field_u32(TEXT("clipped"), jig_counters.clipped);
  out_field_u32(TEXT("damaged"), jig_counters.damaged);
  out_field_u32(TEXT("refused"), jig_counters.refused);
  out_field_u32(TEXT("overruns"), jig_counters.overruns);
  out_field_u32(TEXT("halts"), jig_counters.halts);
  ok_end();
  return true;
}

/* ---- the table ---- */

struct command {
  char verb[9];
  char keys[42]; /* words of the fields that it may take */
  bool (*obey)(void);
};

static const struct command commands[] IN_FLASH = {
    {"identify", "", obey_identify},
    {"load", "at data", obey_load},
    {"play", "wave points step millihertz level dc crc", obey_play},
    {"limit", "peak", obey_limit},
    {"record", "channels frames skip decimate", obey_record},
    {"stop", "", obey_stop},
    {"lamp", "name state", obey_lamp},
    {"buzz", "milliseconds", obey_buzz},
    {"store", "serial calibration", obey_store},
    {"status", "", obey_status},
};

static const struct command *find_command(const char *verb) {
  for (uint8_t i = 0; i < sizeof commands / sizeof commands[0]; i++) {
    if (request_is(verb, commands[i].verb)) {
      return &commands[i];
    }
  }
  return NULL;
}

/* Whether the key of a field (up to "=") is the word of a text that begins here. */
static bool key_is(const char *field, flash_text at) {
  while (*field != '=' && *field == flash_char(at)) {
    field++;
    at++;
  }
  char end = flash_char(at);
  return *field == '=' && (end == ' ' || end == '\0');
}

static flash_text find_key(const char *field, flash_text keys) {
  while (!key_is(field, keys)) {
    while (flash_char(keys) != ' ') {
      if (flash_char(keys) == '\0') {
        return NULL;
      }
      keys++;
    }
    keys++;
  }
  return keys;
}

static bool keys_are_known(const struct command *command) {
  const char *word = now_asked->words;
  for (uint8_t i = 1; i < now_asked->count; i++) {
    word = request_after(word);
    if (find_key(word, command->keys) == NULL) {
      wrong_key = word;
      return refuse(ERROR_FIELD_UNKNOWN, NULL);
    }
    const char *earlier = now_asked->words;
    for (uint8_t j = 1; j < i; j++) {
      earlier = request_after(earlier);
      if (find_key(earlier, command->keys) == find_key(word, command->keys)) {
        wrong_key = word;
        return refuse(ERROR_FIELD_TWICE, NULL);
      }
    }
  }
  return true;
}

static bool obey(void) {
  if (!request_well_formed(now_asked)) {
    return refuse(ERROR_LINE_MALFORMED, NULL);
  }
  const struct command *command = find_command(now_asked->words);
  if (command == NULL) {
    return refuse(ERROR_VERB_UNKNOWN, NULL);
  }
  return keys_are_known(command) && ((bool (*)(void))flash_function(&command->obey))();
}

bool command_obey(const struct request *request) {
  forget_why();
  now_asked = request;
  if (obey()) {
    return true;
  }
  jig_count(&jig_counters.refused);
  out_refusal(request->tag, !request->checked);
  return false;
}
