#include "board.h"
#include "jig.h"

int main(void) {
  board_start();
  jig_start();
  for (;;) {
    jig_turn();
  }
}
