package dev.pawl.editor;

import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.Name;
import dev.pawl.grammar.rules.tree.RuleFile;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/**
 * A name that a rule file declares.
 *
 * @param position where its name stands
 * @param kind what it is named in a list of completions
 * @param text the line that declares it
 */
record Named(String name, Position position, Kind kind, String text) {

  /** What a name stands for. */
  enum Kind {
    SIGNAL,
    ZONE,
    CONSTANT,
    DEFINITION,
    TYPE,
    MEMBER,
    GROUP,
    RULE,
    REQUIREMENT
  }

  /** All that a file declares. */
  static List<Named> of(RuleFile file) {
    Declarations declarations = new Declarations();
    List<Named> all = new ArrayList<>();
    String[] lines = file.source().text().split("\n", -1);
    for (Declaration declaration : file.declarations()) {
      declaration.accept(declarations).forEach(each -> all.add(new Named(each.name().text(), each.name().position(),
          each.kind(), lines[each.name().position().line() - 1].strip())));
    }
    return all;
  }

  private record Declared(Name name, Kind kind) {}

  private static final class Declarations implements Declaration.Visitor<Stream<Declared>> {

    private static Stream<Declared> one(Name name, Kind kind) {
      return Stream.of(new Declared(name, kind));
    }

    @Override public Stream<Declared> visit(Declaration.Language e) { return Stream.of(); }
    @Override public Stream<Declared> visit(Declaration.Ride e) { return Stream.of(); }
    @Override public Stream<Declared> visit(Declaration.Resolution e) { return Stream.of(); }
    @Override public Stream<Declared> visit(Declaration.Use e) { return Stream.of(); }
    @Override public Stream<Declared> visit(Declaration.Needs e) { return Stream.of(); }
    @Override public Stream<Declared> visit(Declaration.Example e) { return Stream.of(); }

    @Override
    public Stream<Declared> visit(Declaration.Constant e) {
      return one(e.name(), Kind.CONSTANT);
    }

    @Override
    public Stream<Declared> visit(Declaration.Define e) {
      return one(e.name(), Kind.DEFINITION);
    }

    @Override
    public Stream<Declared> visit(Declaration.EnumType e) {
      return Stream.concat(one(e.name(), Kind.TYPE), e.members().members().stream()
          .map(member -> new Declared(member, Kind.MEMBER)));
    }

    @Override
    public Stream<Declared> visit(Declaration.Signals e) {
      return e.names().stream().map(name -> new Declared(name, Kind.SIGNAL));
    }

    @Override
    public Stream<Declared> visit(Declaration.Group e) {
      return one(e.name(), Kind.GROUP);
    }

    @Override
    public Stream<Declared> visit(Declaration.Zone e) {
      return one(e.name(), Kind.ZONE);
    }

    @Override
    public Stream<Declared> visit(Declaration.Rule e) {
      return one(e.id(), Kind.RULE);
    }

    @Override
    public Stream<Declared> visit(Declaration.Requirement e) {
      return one(e.id(), Kind.REQUIREMENT);
    }
  }
}
