#define _GNU_SOURCE
#include "port.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/inotify.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <unistd.h>

static char reason[300];
static int in = -1;
static int out = -1;
static int keeper = -1; /* the terminal's other end: while it is open the terminal outlives its users */
static int openings = -1; /* tells of each opening and closing of the terminal */
static char link_at[500];
static bool ended;

static uint8_t gathered[4096];
static size_t gathered_count;
static uint64_t dropped;

static bool fail(const char *what, const char *name, const char **why) {
  snprintf(reason, sizeof reason, "%s %s: %s.", what, name, strerror(errno));
  *why = reason;
  return false;
}

bool port_open_terminal(const char *link_path, const char **why) {
  char name[200];
  in = out = posix_openpt(O_RDWR | O_NOCTTY | O_NONBLOCK);
  if (in < 0 || grantpt(in) != 0 || unlockpt(in) != 0 || ptsname_r(in, name, sizeof name) != 0) {
    return fail("A pseudo-terminal cannot be opened for", link_path, why);
  }
  keeper = open(name, O_RDWR | O_NOCTTY);
  struct termios raw;
  if (keeper < 0 || tcgetattr(keeper, &raw) != 0) {
    return fail("The pseudo-terminal cannot be opened:", name, why);
  }
  cfmakeraw(&raw);
  if (tcsetattr(keeper, TCSANOW, &raw) != 0) {
    return fail("The pseudo-terminal cannot be made raw:", name, why);
  }
  openings = inotify_init1(IN_NONBLOCK | IN_CLOEXEC);
  if (openings < 0 || inotify_add_watch(openings, name, IN_OPEN | IN_CLOSE) < 0) {
    return fail("Openings of the pseudo-terminal cannot be watched:", name, why);
  }
  char there[200];
  ssize_t size = readlink(link_path, there, sizeof there - 1);
  if (size > 0 && strncmp(there, "/dev/pts/", 9) == 0) {
    unlink(link_path); /* left by an earlier run */
  }
  if (symlink(name, link_path) != 0) {
    return fail("No link can be put at", link_path, why);
  }
  snprintf(link_at, sizeof link_at, "%s", link_path);
  return true;
}

void port_open_standard(void) {
  in = STDIN_FILENO;
  out = STDOUT_FILENO;
  fcntl(in, F_SETFL, fcntl(in, F_GETFL) | O_NONBLOCK);
}

bool port_was_opened(void) {
  _Alignas(struct inotify_event) char events[50 * sizeof(struct inotify_event)];
  bool opened = false;
  ssize_t size;
  while (openings >= 0 && (size = read(openings, events, sizeof events)) > 0) {
    for (ssize_t at = 0; at < size;) {
      const struct inotify_event *event = (const struct inotify_event *)(events + at);
      at += (ssize_t)(sizeof *event + event->len);
      opened = opened || (event->mask & IN_OPEN) != 0;
      if ((event->mask & IN_CLOSE) != 0) {
        ioctl(keeper, TIOCNXCL); /* a program that died with the port to itself no longer has it */
      }
    }
  }
  return opened;
}

void port_forget(void) {
  uint8_t lost[256];
  gathered_count = 0;
  while (read(in, lost, sizeof lost) > 0) {
  }
  tcflush(keeper, TCIFLUSH);
}

int port_get(void) {
  uint8_t byte;
  if (ended) {
    return -2;
  }
  ssize_t count = read(in, &byte, 1);
  if (count == 1) {
    return byte;
  }
  if (count == 0 && keeper < 0) {
    ended = true;
    return -2;
  }
  return -1;
}

void port_put(uint8_t byte) {
  if (gathered_count < sizeof gathered) {
    gathered[gathered_count++] = byte;
  } else {
    dropped++;
  }
}

void port_flush(void) {
  while (gathered_count > 0) {
    ssize_t count = write(out, gathered, gathered_count);
    if (count < 0 && keeper < 0 && errno == EAGAIN) {
      struct pollfd wait = {out, POLLOUT, 0};
      poll(&wait, 1, 100);
      continue; /* a pipe waits for its reader */
    }
    if (count <= 0) {
      break;
    }
    gathered_count -= (size_t)count;
    memmove(gathered, gathered + count, gathered_count);
  }
}

void port_close(void) {
  port_flush();
  if (link_at[0] != '\0') {
    unlink(link_at);
  }
}

uint64_t port_dropped(void) { return dropped; }
