// Where a line starts and ends, and what kind of line it is: what is settled before the grammar reads it.
//
// A line whose first word is that of a block opens one, whatever follows it (`cook` only before a quote). A line with a
// digit, a comma and a digit outside quotes and remarks is not read at all. Remarks are found here too, because a
// line of nothing else starts no line of the grammar.
//
// Starts, which have no width, and ends take turns, also where the grammar does not ask for one: what it was reading
// then has come to its end too early. A block ends with its last line, before the remarks above the next one.

#include "tree_sitter/alloc.h"
#include "tree_sitter/parser.h"

#include <string.h>

enum { COMMENT, HEAD_START, CLAUSE_START, BAD_HEAD_START, BAD_CLAUSE_START, LINE_END, BLOCK_START, BLOCK_END };

// Where the scanner is: between two lines, before the first word of a block, or in a line.
enum { BETWEEN, OPENED, IN_LINE };

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

static bool opens_text(int32_t c) { return c == ',' || c == '"' || c == 0x201C || c == 0x201E; }

// After a word that is a block's: does it stand alone? A colon may follow it.
static bool word_ends(TSLexer *lexer) {
  while (lexer->lookahead == ':') lexer->advance(lexer, false);
  int32_t c = lexer->lookahead;
  return ends_line(lexer) || is_blank(c) || is_quote(c) || c == ',' || c == '/';
}

// `last` is the sign that was passed to get here, or a blank.
static int kind_of_line(TSLexer *lexer, int32_t last) {
  char word[WORD_ROOM] = "";
  bool bad = false, alone = false;
  // After a sign there is no first word; after an opening quote or a comma there is one, but nothing to read.
  while (last == ' ' && !ends_line(lexer) && (opens_text(lexer->lookahead) || is_blank(lexer->lookahead))) {
    bad = bad || !is_blank(lexer->lookahead);
    lexer->advance(lexer, false);
  }
  if (last == ' ') {
    last = read_word(lexer, word);
    alone = word_ends(lexer);
  }
  while (!ends_line(lexer) && is_blank(lexer->lookahead)) {
    lexer->advance(lexer, false);
    last = ' ';
  }
  bool head = alone && opens_block(word, lexer);
  bad = bad || has_decimal_comma(lexer, last);
  return head ? (bad ? BAD_HEAD_START : HEAD_START) : (bad ? BAD_CLAUSE_START : CLAUSE_START);
}

// Takes the remark that starts here; `false` if it is another sign, which is passed.
static bool pass_remark(TSLexer *lexer) {
  lexer->advance(lexer, false);
  if (lexer->lookahead != '/') return false;
  while (!ends_line(lexer)) lexer->advance(lexer, false);
  return true;
}

static bool found_remark(TSLexer *lexer) {
  lexer->mark_end(lexer);
  lexer->result_symbol = COMMENT;
  return true;
}

// At the end of a line: does the block end with it?
static int kind_of_end(TSLexer *lexer) {
  while (!lexer->eof(lexer)) {
    if (is_blank(lexer->lookahead)) {
      lexer->advance(lexer, false);
    } else if (lexer->lookahead != '/') {
      int kind = kind_of_line(lexer, ' ');
      return kind == HEAD_START || kind == BAD_HEAD_START ? BLOCK_END : LINE_END;
    } else if (!pass_remark(lexer)) {
      return LINE_END;
    }
  }
  return BLOCK_END;
}

static bool scan_in_line(TSLexer *lexer) {
  while (!ends_line(lexer) && is_blank(lexer->lookahead)) lexer->advance(lexer, true);
  if (!ends_line(lexer)) return lexer->lookahead == '/' && pass_remark(lexer) && found_remark(lexer);
  // The end has a width, so that both readings of the line get there before one of them goes on.
  if (lexer->lookahead == '\r') lexer->advance(lexer, false);
  if (lexer->lookahead == '\n') lexer->advance(lexer, false);
  lexer->mark_end(lexer);
  lexer->result_symbol = (TSSymbol)kind_of_end(lexer);
  return true;
}

static bool scan_between_lines(TSLexer *lexer) {
  while (!lexer->eof(lexer) && is_blank(lexer->lookahead)) lexer->advance(lexer, true);
  if (lexer->eof(lexer)) return false;
  lexer->mark_end(lexer);
  int32_t last = ' ';
  if (lexer->lookahead == '/') {
    if (pass_remark(lexer)) return found_remark(lexer);
    last = '/';
  }
  lexer->result_symbol = (TSSymbol)kind_of_line(lexer, last);
  return true;
}

static bool scan(char *where, TSLexer *lexer) {
  if (!(*where == IN_LINE ? scan_in_line(lexer) : scan_between_lines(lexer))) return false;
  bool head = lexer->result_symbol == HEAD_START || lexer->result_symbol == BAD_HEAD_START;
  if (head && *where == BETWEEN) {
    lexer->result_symbol = BLOCK_START;
    *where = OPENED;
  } else if (lexer->result_symbol != COMMENT) {
    *where = *where == IN_LINE ? BETWEEN : IN_LINE;
  }
  return true;
}

bool tree_sitter_dwell_external_scanner_scan(void *payload, TSLexer *lexer, const bool *valid) {
  (void)valid;
  return scan(payload, lexer);
}

void *tree_sitter_dwell_external_scanner_create(void) { return ts_calloc(1, 1); }

void tree_sitter_dwell_external_scanner_destroy(void *payload) { ts_free(payload); }

unsigned tree_sitter_dwell_external_scanner_serialize(void *payload, char *buffer) {
  *buffer = *(char *)payload;
  return 1;
}

void tree_sitter_dwell_external_scanner_deserialize(void *payload, const char *buffer, unsigned length) {
  *(char *)payload = length > 0 ? *buffer : BETWEEN;
}
