package dev.pawl.grammar.rules.tree;

import dev.pawl.grammar.source.Source;
import java.util.List;

/**
 * A rule file as written.
 *
 * @param source the text it was read from
 * @param declarations in the order of the text; those that could not be read are missing
 * @param unread the names that the missing ones would have declared, so that their use is not told as a second error
 * @param comments in the order of the text
 */
public record RuleFile(Source source, List<Declaration> declarations, List<Name> unread, List<Comment> comments) {

  public RuleFile {
    declarations = List.copyOf(declarations);
    unread = List.copyOf(unread);
    comments = List.copyOf(comments);
  }
}
