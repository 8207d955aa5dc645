#include "command.h"

#include <stddef.h>
#include <stdint.h>

#include "jig.h"
#include "obey.h"
#include "reply.h"

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
  const char *word = reply_asked->words;
  for (uint8_t i = 1; i < reply_asked->count; i++) {
    word = request_after(word);
    if (find_key(word, command->keys) == NULL) {
      return reply_refuse_word(ERROR_FIELD_UNKNOWN, word);
    }
    const char *earlier = reply_asked->words;
    for (uint8_t j = 1; j < i; j++) {
      earlier = request_after(earlier);
      if (find_key(earlier, command->keys) == find_key(word, command->keys)) {
        return reply_refuse_word(ERROR_FIELD_TWICE, word);
      }
    }
  }
  return true;
}

static bool obey(void) {
  if (!request_well_formed(reply_asked)) {
    return reply_refuse(ERROR_LINE_MALFORMED, NULL);
  }
  const struct command *command = find_command(reply_asked->words);
  if (command == NULL) {
    return reply_refuse(ERROR_VERB_UNKNOWN, NULL);
  }
  return keys_are_known(command) && ((bool (*)(void))flash_function(&command->obey))();
}

bool command_obey(const struct request *request) {
  reply_begin(request);
  if (obey()) {
    return true;
  }
  jig_count(&jig_counters.refused);
  reply_refused();
  return false;
}

void command_refuse_line(enum jig_error error) {
  reply_begin(NULL);
  jig_count(&jig_counters.damaged);
  reply_refuse(error, NULL);
  reply_refused();
}
