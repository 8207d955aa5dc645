# Makes core/errors.h from protocol/errors.csv: one row, one error. Number and name hold no quotes.
BEGIN {
  FS = ","
  print "/* Made from protocol/errors.csv by tools/errors.awk: change that table, not this file. */"
  print "#ifndef ERRORS_H\n#define ERRORS_H\n"
}
NR > 1 && $1 ~ /^[0-9]+$/ {
  id = toupper($2)
  gsub(/-/, "_", id)
  ids = ids sprintf("  ERROR_%s = %d,\n", id, $1)
  rows = rows sprintf("  ROW(ERROR_%s, \"%s\") \\\n", id, $2)
}
END {
  printf "enum jig_error {\n  ERROR_NONE = 0,\n%s};\n\n", ids
  printf "/* ROW(number, name) for each. */\n#define ERROR_ROWS(ROW) \\\n%s\n#endif\n", rows
}
