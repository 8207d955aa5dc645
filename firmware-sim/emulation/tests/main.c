/* Trials of the real ELF on the emulated board: board_tests <elf> <folder of protocol vectors>. */
#include <stdarg.h>
#include <stdio.h>

#include "check.h"
#include "emulated.h"
#include "on_board.h"
#include "talk.h"

extern const struct test board_tests[], model_tests[];

const char *vectors_folder;
struct model trial_world;

static int failures;
static char note[300];

void check_fail(const char *file, int line, const char *format, ...) {
  if (++failures > 10) {
    return;
  }
  va_list values;
  va_start(values, format);
  fprintf(stderr, "  %s:%d: ", file, line);
  vfprintf(stderr, format, values);
  fputc('\n', stderr);
  va_end(values);
}

bool check_failed(void) { return failures > 0; }

void check_note(const char *format, ...) {
  va_list values;
  va_start(values, format);
  vsnprintf(note, sizeof note, format, values);
  va_end(values);
}

static int run(const struct test *tests) {
  int bad = 0;
  for (; tests->behaviour != NULL; tests++) {
    failures = 0;
    note[0] = '\0';
    tests->run();
    printf("%s: %s%s%s\n", failures == 0 ? "ok" : "FAILED", tests->behaviour, note[0] ? ": " : "", note);
    fflush(stdout);
    bad += failures != 0;
  }
  return bad;
}

int main(int count, char **words) {
  const char *why = "";
  if (count != 3) {
    fprintf(stderr, "usage: %s <elf> <folder of protocol vectors>\n", words[0]);
    return 2;
  }
  vectors_folder = words[2];
  model_resistor(&trial_world, 8);
  if (!on_board_load(words[1], &trial_world, &why)) {
    fprintf(stderr, "%s\n", why);
    return 2;
  }
  int bad = run(model_tests) + run(dialogue_tests) + run(board_tests);
  return bad == 0 ? 0 : 1;
}
