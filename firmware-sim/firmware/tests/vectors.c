#include "vectors.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"
#include "talk.h"

int vectors_each(const char *file, void (*each)(const struct vector *vector)) {
  char path[1000];
  snprintf(path, sizeof path, "%s/%s", vectors_folder, file);
  FILE *in = fopen(path, "r");
  if (in == NULL) {
    check_fail(__FILE__, __LINE__, "cannot read %s", path);
    return 0;
  }
  static struct vector vector;
  char text[2000];
  int count = 0;
  for (int number = 1; fgets(text, sizeof text, in) != NULL; number++) {
    text[strcspn(text, "\n")] = '\0';
    if (strncmp(text, "> ", 2) == 0) {
      snprintf(vector.given, sizeof vector.given, "%s", text + 2);
      vector.line = number;
    } else if (strncmp(text, "= ", 2) == 0) {
      snprintf(vector.gives, sizeof vector.gives, "%s", text + 2);
      each(&vector);
      count++;
    }
  }
  fclose(in);
  return count;
}

size_t vectors_unescape(char *text) {
  size_t count = 0;
  for (const char *from = text; *from != '\0';) {
    if (from[0] == '\\' && from[1] == 'x') {
      char hex[3] = {from[2], from[3], '\0'};
      text[count++] = (char)strtol(hex, NULL, 16);
      from += 4;
    } else {
      text[count++] = *from++;
    }
  }
  return count;
}
