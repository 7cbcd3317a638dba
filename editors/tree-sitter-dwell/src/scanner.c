// Where a line starts, and what kind of line it is: the two things that are settled before the grammar reads it.
//
// A line whose first word is that of a block opens one, whatever follows it (`cook` only before a quote). A line with a
// digit, a comma and a digit outside quotes and remarks is not read at all. Remarks are found here too, because a
// line of nothing else starts no line of the grammar.
//
// A start has no width. It is given once for each end of a line that was passed, and once at the start of the file,
// also where the grammar does not ask for it: what it was reading then has come to its end too early.

#include "tree_sitter/alloc.h"
#include "tree_sitter/parser.h"

#include <string.h>

enum { COMMENT, HEAD_START, CLAUSE_START, BAD_HEAD_START, BAD_CLAUSE_START };

// Longer than any word of a block.
enum { WORD_ROOM = 12 };

static const char *const BLOCKS[] = {"dwell", "kit",  "food", "ingredient", "phase",
                                     "serve", "crew", "menu", "dish"};

static bool is_digit(int32_t c) { return c >= '0' && c <= '9'; }

static bool ends_line(TSLexer *lexer) {
  return lexer->eof(lexer) || lexer->lookahead == '\n' || lexer->lookahead == '\r';
}

// What takes no ink, as `text::is_invisible` has it.
static bool is_blank(int32_t c) {
  return (c >= 0 && c <= ' ') || (c >= 0x7F && c <= 0xA0) || c == 0xAD || c == 0x61C || c == 0x1680 ||
         (c >= 0x2000 && c <= 0x200B) || c == 0x200E || c == 0x200F || (c >= 0x2028 && c <= 0x202F) ||
         (c >= 0x205F && c <= 0x206F) || c == 0x3000 || c == 0xFEFF;
}

static bool in_word(int32_t c) {
  return is_digit(c) || c == '-' || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= 0x80 && !is_blank(c));
}

static bool is_curly(int32_t c) { return c == 0x201C || c == 0x201D || c == 0x201E || c == 0x201F; }

static bool is_quote(int32_t c) { return c == '"' || is_curly(c); }

// The first word of the line, in small letters; what is longer than the room is no word of a block. Gives the last
// character that it passed.
static int32_t read_word(TSLexer *lexer, char *word) {
  unsigned length = 0;
  int32_t last = ' ';
  while (!ends_line(lexer) && in_word(lexer->lookahead)) {
    int32_t c = lexer->lookahead;
    if (length < WORD_ROOM - 1) {
      word[length++] = c >= 'A' && c <= 'Z' ? (char)(c + 'a' - 'A') : c < 0x80 ? (char)c : '?';
    }
    lexer->advance(lexer, false);
    last = c;
  }
  word[length] = '\0';
  return last;
}

static bool opens_block(const char *word, TSLexer *lexer) {
  if (strcmp(word, "cook") == 0) return is_quote(lexer->lookahead);
  for (unsigned nth = 0; nth < sizeof BLOCKS / sizeof *BLOCKS; nth++) {
    if (strcmp(word, BLOCKS[nth]) == 0) return true;
  }
  return false;
}

// Is there a digit, a comma and a digit in the rest of the line, outside quotes and remarks? `last` stands before it.
static bool has_decimal_comma(TSLexer *lexer, int32_t last) {
  int32_t before = ' ';
  while (!ends_line(lexer)) {
    int32_t c = lexer->lookahead;
    if (is_digit(before) && last == ',' && is_digit(c)) return true;
    if (last == '/' && c == '/') return false;
    lexer->advance(lexer, false);
    before = last;
    last = c;
    if (!is_quote(c)) continue;
    while (!ends_line(lexer) && (c == '"' ? lexer->lookahead != '"'
                                          : !is_curly(lexer->lookahead) || lexer->lookahead == 0x201E)) {
      lexer->advance(lexer, false);
    }
    if (!ends_line(lexer)) lexer->advance(lexer, false);
  }
  return false;
}

static int kind_of_line(TSLexer *lexer, int32_t last) {
  char word[WORD_ROOM] = "";
  // After a sign there is no first word.
  if (last == ' ') last = read_word(lexer, word);
  while (!ends_line(lexer) && is_blank(lexer->lookahead)) {
    lexer->advance(lexer, false);
    last = ' ';
  }
  bool head = opens_block(word, lexer);
  if (has_decimal_comma(lexer, last)) return head ? BAD_HEAD_START : BAD_CLAUSE_START;
  return head ? HEAD_START : CLAUSE_START;
}

bool tree_sitter_dwell_external_scanner_scan(void *payload, TSLexer *lexer, const bool *valid) {
  bool *begun = payload;
  bool at_start = !*begun;
  while (!lexer->eof(lexer) && is_blank(lexer->lookahead)) {
    if (lexer->lookahead == '\n' || lexer->lookahead == '\r') at_start = true;
    lexer->advance(lexer, true);
  }
  if (lexer->eof(lexer)) return false;
  lexer->mark_end(lexer);
  int32_t last = ' ';
  if (lexer->lookahead == '/') {
    lexer->advance(lexer, false);
    last = '/';
    if (lexer->lookahead == '/') {
      while (!ends_line(lexer)) lexer->advance(lexer, false);
      lexer->mark_end(lexer);
      lexer->result_symbol = COMMENT;
      return true;
    }
  }
  if (!at_start) return false;
  *begun = true;
  lexer->result_symbol = (TSSymbol)kind_of_line(lexer, last);
  return true;
}

void *tree_sitter_dwell_external_scanner_create(void) { return ts_calloc(1, sizeof(bool)); }

void tree_sitter_dwell_external_scanner_destroy(void *payload) { ts_free(payload); }

unsigned tree_sitter_dwell_external_scanner_serialize(void *payload, char *buffer) {
  buffer[0] = *(bool *)payload ? 1 : 0;
  return 1;
}

void tree_sitter_dwell_external_scanner_deserialize(void *payload, const char *buffer, unsigned length) {
  *(bool *)payload = length > 0 && buffer[0] != 0;
}
