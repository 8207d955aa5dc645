/* Trials of the real ELF on the emulated board: board_tests <elf> <folder of protocol vectors>. */
#include <stdio.h>

#include "check.h"
#include "emulated.h"
#include "on_board.h"
#include "talk.h"

extern const struct test board_tests[], model_tests[];

const char *vectors_folder;
struct model trial_world;

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
  int bad = check_run(model_tests) + check_run(dialogue_tests) + check_run(board_tests);
  return bad == 0 ? 0 : 1;
}
