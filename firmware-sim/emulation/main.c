/* Runs the firmware on an emulated board beside a model of the analog world. README.md tells how. */
#define _GNU_SOURCE
#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "emulated.h"
#include "model.h"
#include "port.h"

#define HZ 16000000.0
#define LATE 0.02 /* seconds that may be caught up: a sleep may last a little longer than asked for */
#define SLICE 1600 /* cycles between two looks at the outside: 0.1 ms */

static volatile sig_atomic_t stop_asked;
static volatile sig_atomic_t foot_asked;
static volatile sig_atomic_t reboot_asked;

static void on_signal(int number) {
  if (number == SIGUSR1) {
    foot_asked = 1;
  } else if (number == SIGUSR2) {
    reboot_asked = 1;
  } else {
    stop_asked = 1;
  }
}

static const char usage[] =
    "usage: emulated-board --elf FILE (--model FILE | --resistor OHM) (--port LINK | --stdio)\n"
    "                      [--no-restart] [--control FIFO] [--pace TIMES | --free] [--seconds N]\n"
    "  --port LINK     a pseudo-terminal, with a link to it at LINK\n"
    "  --no-restart    a program that opens the port does not restart the board, as where that line is not wired\n"
    "  --stdio         the serial line on standard input and output; ends with the input\n"
    "  --control FIFO  makes a FIFO that takes: foot down|up, lamps, reboot [power|brown-out], report, quit\n"
    "  --pace TIMES    at most so many times as fast as real time (1 if not given)\n"
    "  --free          as fast as the machine allows: for a host that does not go by a clock of its own\n"
    "  --seconds N     ends after N emulated seconds\n"
    "Signals: USR1 presses or lets go of the foot switch, USR2 reboots, INT and TERM end with the report.\n";

struct options {
  const char *elf;
  const char *model;
  double resistor;
  const char *port;
  bool standard;
  bool no_restart;
  const char *control;
  bool free;
  double pace;
  double seconds;
};

static bool read_number(const char *text, double *into) {
  char *end;
  *into = strtod(text, &end);
  return end != text && *end == '\0' && *into > 0 && *into < 1e9;
}

static bool read_options(int count, char **words, struct options *o) {
  *o = (struct options){.pace = 1};
  for (int i = 1; i < count; i++) {
    const char *value = i + 1 < count ? words[i + 1] : NULL;
    if (strcmp(words[i], "--stdio") == 0) {
      o->standard = true;
    } else if (strcmp(words[i], "--no-restart") == 0) {
      o->no_restart = true;
    } else if (strcmp(words[i], "--free") == 0) {
      o->free = true;
    } else if (value == NULL) {
      return false;
    } else if (strcmp(words[i], "--elf") == 0) {
      o->elf = words[++i];
    } else if (strcmp(words[i], "--model") == 0) {
      o->model = words[++i];
    } else if (strcmp(words[i], "--port") == 0) {
      o->port = words[++i];
    } else if (strcmp(words[i], "--control") == 0) {
      o->control = words[++i];
    } else if (strcmp(words[i], "--resistor") == 0 && read_number(value, &o->resistor)) {
      i++;
    } else if (strcmp(words[i], "--pace") == 0 && read_number(value, &o->pace)) {
      i++;
    } else if (strcmp(words[i], "--seconds") == 0 && read_number(value, &o->seconds)) {
      i++;
    } else {
      return false;
    }
  }
  bool world = (o->model != NULL) != (o->resistor > 0);
  bool line = (o->port != NULL) != o->standard;
  return o->elf != NULL && world && line;
}

static double seconds_now(void) {
  struct timespec now;
  clock_gettime(CLOCK_MONOTONIC, &now);
  return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

/* ---- the report ---- */

static void report(const struct model *world, double real) {
  const struct emulated_figures *f = emulated_figures();
  double emulated = (double)f->cycles / HZ;
  fprintf(stderr, "emulated %.2f s in %.2f s of real time: %.2f times real time\n", emulated, real,
          real > 0 ? emulated / real : 0);
  fprintf(stderr, "flash %u bytes, static RAM %u bytes, stack seen %u bytes\n", f->flash, f->static_ram,
          f->stack_used);
  fprintf(stderr, "tick interrupt: at worst over %u cycles after its overflow, of 1024; %u of them its own, %.0f on "
          "average; entered at most %u late; %llu ticks, %llu lost\n",
          f->tick_worst, f->tick_run_worst, f->ticks == 0 ? 0 : (double)f->tick_run_sum / (double)f->ticks,
          f->entry_worst, (unsigned long long)f->ticks, (unsigned long long)f->ticks_lost);
  fprintf(stderr, "conversions: %llu, started from %u to %u cycles after the overflow, %llu of them moved to a later "
          "edge of the converter's clock\n",
          (unsigned long long)f->conversions, f->conversions == 0 ? 0 : f->start_first, f->start_last,
          (unsigned long long)f->moved);
  fprintf(stderr, "receive interrupt: at worst %u cycles, begun at most %u after the byte, of 640\n", f->receive_worst,
          f->receive_wait);
  fprintf(stderr, "link: %llu bytes out, %llu in; busiest tenth of a second %.1f %% of 50000 bytes/s; %llu dropped\n",
          (unsigned long long)f->sent, (unsigned long long)f->received, f->sent_busiest / 50.0,
          (unsigned long long)port_dropped());
  if (world->beyond > 0) {
    fprintf(stderr, "NOT TRUSTWORTHY: the bridge passed its limits on %llu ticks, which the model file does not hold\n",
            (unsigned long long)world->beyond);
  }
}

/* ---- the control pipe ---- */

static int control = -1;
static bool foot;

static void show_lamps(void) {
  bool lit[4];
  emulated_lamps(lit);
  fprintf(stderr, "lamps pass=%d fail=%d busy=%d buzzer=%d\n", lit[0], lit[1], lit[2], lit[3]);
}

static void obey(const char *order, const struct model *world, double from) {
  if (strcmp(order, "foot down") == 0 || strcmp(order, "foot up") == 0) {
    foot = order[5] == 'd';
    emulated_foot(foot);
  } else if (strcmp(order, "lamps") == 0) {
    show_lamps();
  } else if (strcmp(order, "reboot") == 0) {
    emulated_reset(RESET_EXTERNAL);
  } else if (strcmp(order, "reboot power") == 0) {
    emulated_reset(RESET_POWER);
  } else if (strcmp(order, "reboot brown-out") == 0) {
    emulated_reset(RESET_BROWN_OUT);
  } else if (strcmp(order, "report") == 0) {
    report(world, seconds_now() - from);
  } else if (strcmp(order, "quit") == 0) {
    stop_asked = 1;
  } else if (order[0] != '\0') {
    fprintf(stderr, "\"%s\" is no order; there are: foot down, foot up, lamps, reboot [power|brown-out], report, quit\n",
            order);
  }
}

static void take_orders(const struct model *world, double from) {
  static char order[100];
  static size_t size;
  char c;
  while (control >= 0 && read(control, &c, 1) == 1) {
    if (c == '\n') {
      order[size] = '\0';
      size = 0;
      obey(order, world, from);
    } else if (size < sizeof order - 1) {
      order[size++] = c;
    }
  }
  if (foot_asked) {
    foot_asked = 0;
    foot = !foot;
    emulated_foot(foot);
  }
  if (reboot_asked) {
    reboot_asked = 0;
    emulated_reset(RESET_EXTERNAL);
  }
}

static bool open_control(const char *path) {
  if (mkfifo(path, 0600) != 0 && errno != EEXIST) {
    fprintf(stderr, "No FIFO can be made at %s: %s.\n", path, strerror(errno));
    return false;
  }
  control = open(path, O_RDWR | O_NONBLOCK);
  if (control < 0) {
    fprintf(stderr, "The FIFO %s cannot be opened: %s.\n", path, strerror(errno));
    return false;
  }
  return true;
}

/* ---- running ---- */

/* Bytes that the host sent go in one by one, at the link's pace, on standard input from the banner on; false
 * when standard input has ended and all of it was answered. */
static bool exchange(bool standard) {
  static uint64_t quiet_since;
  static bool ended;
  bool awake = !standard || emulated_figures()->sent > 0;
  if (awake && emulated_can_hear()) {
    int byte = ended ? -2 : port_get();
    if (byte >= 0) {
      emulated_hear((uint8_t)byte);
    } else if (byte == -2) {
      ended = true;
    }
  }
  static uint64_t sent;
  const struct emulated_figures *f = emulated_figures();
  if (f->sent != sent || !ended) {
    sent = f->sent;
    quiet_since = f->cycles;
  }
  return !ended || f->cycles - quiet_since < (uint64_t)(HZ / 10);
}

/* A port that is opened pulls the board's reset for a moment: what was under way is lost. */
static void restart_when_opened(bool wired) {
  if (port_was_opened() && wired) {
    port_forget();
    emulated_reset(RESET_EXTERNAL);
  }
}

/*
 * Never faster than the pace: what a busy machine made late is not caught up, since a host that goes by its own
 * clock would find the board silent for longer than it was.
 */
static void keep_step(double pace) {
  static double from;
  double due = (double)emulated_figures()->cycles / HZ / pace;
  double ahead = from + due - seconds_now();
  if (from == 0 || ahead < -LATE) {
    from = seconds_now() - due;
  } else if (ahead > 0.002) {
    struct timespec wait = {0, (long)(fmin(ahead, 1) * 1e9 * 0.9)};
    nanosleep(&wait, NULL);
  }
}

static int run(const struct options *o, struct model *world) {
  double from = seconds_now();
  uint64_t looks = 0;
  while (!stop_asked && (o->seconds == 0 || (double)emulated_figures()->cycles < o->seconds * HZ)) {
    if (!emulated_run(emulated_can_hear() ? SLICE / 5 : 64)) {
      fprintf(stderr, "The processor has stopped.\n");
      return 1;
    }
    if (!exchange(o->standard)) {
      break;
    }
    if (++looks % 16 == 0) {
      restart_when_opened(!o->no_restart);
      port_flush();
      take_orders(world, from);
      if (!o->free) {
        keep_step(o->pace);
      }
    }
  }
  port_close();
  report(world, seconds_now() - from);
  return 0;
}

int main(int count, char **words) {
  struct options o;
  static struct model world;
  const char *why = "";
  if (!read_options(count, words, &o)) {
    fputs(usage, stderr);
    return 2;
  }
  if (o.model != NULL && !model_read(&world, o.model, &why)) {
    fprintf(stderr, "%s\n", why);
    return 2;
  }
  if (o.model == NULL) {
    model_resistor(&world, o.resistor);
  }
  if (!emulated_load(o.elf, &world, &why) || (o.port != NULL && !port_open_terminal(o.port, &why))) {
    fprintf(stderr, "%s\n", why);
    return 2;
  }
  if (o.standard) {
    port_open_standard();
  }
  if (o.control != NULL && !open_control(o.control)) {
    return 2;
  }
  emulated_on_byte = port_put;
  struct sigaction act = {.sa_handler = on_signal};
  sigaction(SIGINT, &act, NULL);
  sigaction(SIGTERM, &act, NULL);
  sigaction(SIGUSR1, &act, NULL);
  sigaction(SIGUSR2, &act, NULL);
  signal(SIGPIPE, SIG_IGN);
  int result = run(&o, &world);
  if (o.control != NULL) {
    unlink(o.control);
  }
  return result;
}
