package dev.pawl.grammar.logic.drawn;

import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Initializer;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.Statement;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.logic.tree.VariableBlock;
import dev.pawl.grammar.source.Position;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.StringJoiner;
import java.util.TreeMap;

/**
 * What a drawn project says at each of its lines, in the words of Structured Text: the same for two exports in which
 * only places and numbers of elements differ.
 */
final class DrawnWords implements Statement.Visitor<Void> {

  private final Map<Integer, StringJoiner> lines = new TreeMap<>();

  private DrawnWords() {}

  /** The words of each of so many lines. */
  static List<String> of(List<Declaration> declarations, int lines) {
    DrawnWords words = new DrawnWords();
    for (Declaration declaration : declarations) {
      if (declaration instanceof Declaration.Unit unit) {
        unit.blocks().forEach(words::variables);
        unit.body().forEach(statement -> statement.accept(words));
        unit.actions().forEach(action -> action.body().forEach(statement -> statement.accept(words)));
      } else if (declaration instanceof Declaration.Globals globals) {
        words.variables(globals.block());
      } else if (declaration instanceof Declaration.TypeDeclaration type) {
        words.say(type.name().position(), type.name() + " : " + type(type.specification()));
      } else if (declaration instanceof Declaration.Configuration configuration) {
        configuration.globals().forEach(words::variables);
        configuration.resources().forEach(words::resource);
      }
    }
    String[] all = new String[lines];
    Arrays.fill(all, "");
    words.lines.forEach((line, said) -> {
      if (line >= 1 && line <= lines) {
        all[line - 1] = said.toString();
      }
    });
    return List.of(all);
  }

  private void say(Position position, String words) {
    lines.computeIfAbsent(position.line(), unused -> new StringJoiner(" ")).add(words + " ;");
  }

  private void resource(Declaration.Resource resource) {
    resource.globals().forEach(this::variables);
    resource.tasks().forEach(task -> say(task.name().position(), "TASK " + task.name() + text(task.single())
        + text(task.interval()) + text(task.priority())));
    resource.programs().forEach(program -> say(program.name().position(), "PROGRAM " + program.name()
        + program.task().map(task -> " WITH " + task).orElse("") + " : " + program.type()));
  }

  private void variables(VariableBlock block) {
    for (VariableBlock.Variables variables : block.declarations()) {
      for (Name name : variables.names()) {
        if (name.text().indexOf(' ') < 0) {
          say(name.position(), block.section() + " " + name + variables.address().map(it -> " AT " + it).orElse("")
              + " : " + type(variables.specification()) + variables.initial().map(it -> " := " + text(it)).orElse(""));
        }
      }
    }
  }

  private static String type(TypeSpecification type) {
    return type.accept(new TypeSpecification.Visitor<String>() {
      @Override public String visit(TypeSpecification.Named e) { return e.name().text(); }
      @Override public String visit(TypeSpecification.SizedString e) { return e.name() + "[" + text(e.length()) + "]"; }
      @Override public String visit(TypeSpecification.Unreadable e) { return "?"; }

      @Override
      public String visit(TypeSpecification.Subrange e) {
        return e.base() + "(" + text(e.low()) + ".." + text(e.high()) + ")";
      }

      @Override
      public String visit(TypeSpecification.Enumeration e) {
        return "(" + String.join(", ", e.members().stream().map(it -> it.name() + text(it.value())).toList()) + ")";
      }

      @Override
      public String visit(TypeSpecification.OpenArray e) {
        return "ARRAY[" + String.join(", ", Collections.nCopies(e.dimensions(), "*")) + "] OF " + type(e.element());
      }

      @Override
      public String visit(TypeSpecification.ArrayOf e) {
        return "ARRAY[" + String.join(", ", e.bounds().stream().map(it -> text(it.low()) + ".." + text(it.high()))
            .toList()) + "] OF " + type(e.element());
      }

      @Override
      public String visit(TypeSpecification.Structure e) {
        return "STRUCT " + String.join("; ", e.fields().stream().map(it -> it.name() + " : " + type(it.specification())
            + it.initial().map(first -> " := " + text(first)).orElse("")).toList()) + " END_STRUCT";
      }
    });
  }

  private static String text(Initializer initializer) {
    if (initializer instanceof Initializer.Value value) {
      return text(value.expression());
    } else if (initializer instanceof Initializer.Elements elements) {
      return "[" + String.join(", ", elements.elements().stream().map(it -> it.count() + "(" + it.initial()
          .map(DrawnWords::text).orElse("") + ")").toList()) + "]";
    }
    return "(" + String.join(", ", ((Initializer.Fields) initializer).fields().stream().map(it -> it.name() + " := "
        + text(it.initial())).toList()) + ")";
  }

  // ---- expressions

  private static String text(Optional<Expression> expression) {
    return expression.map(it -> " := " + text(it)).orElse("");
  }

  /** A name as written; of one that was made only what it is. */
  private static String text(Name name) {
    return name.text().indexOf(' ') < 0 ? name.text() : name.text().substring(0, name.text().indexOf(' '));
  }

  private static String text(Expression expression) {
    return expression.accept(new Expression.Visitor<String>() {
      @Override public String visit(Expression.IntegerLiteral e) { return typed(e.type(), e.value().toString()); }
      @Override public String visit(Expression.RealLiteral e) { return typed(e.type(), e.value().toString()); }
      @Override public String visit(Expression.BooleanLiteral e) { return e.value() ? "TRUE" : "FALSE"; }
      @Override public String visit(Expression.StringLiteral e) { return typed(e.type(), "'" + e.value() + "'"); }
      @Override public String visit(Expression.TimeLiteral e) { return e.type() + "#" + e.nanoseconds() + "ns"; }
      @Override public String visit(Expression.QualifiedName e) { return e.type() + "#" + e.member(); }
      @Override public String visit(Expression.NameReference e) { return text(e.name()); }
      @Override public String visit(Expression.DirectReference e) { return e.address().text(); }
      @Override public String visit(Expression.Member e) { return text(e.owner()) + "." + e.name(); }
      @Override public String visit(Expression.Unary e) { return e.operator() + " " + text(e.operand()); }

      @Override
      public String visit(Expression.Part e) {
        return text(e.owner()) + ".%" + e.width() + "." + e.index();
      }

      @Override
      public String visit(Expression.Indexed e) {
        return text(e.owner()) + "[" + String.join(", ", e.indices().stream().map(DrawnWords::text).toList()) + "]";
      }

      @Override
      public String visit(Expression.Call e) {
        return text(e.callee()) + " ( " + String.join(" , ", e.arguments().stream().map(DrawnWords::text).toList())
            + " )";
      }

      @Override
      public String visit(Expression.Binary e) {
        return "(" + text(e.left()) + " " + e.operator().symbol() + " " + text(e.right()) + ")";
      }
    });
  }

  private static String typed(Optional<Name> type, String value) {
    return type.map(it -> it + "#").orElse("") + value;
  }

  private static String text(Expression.Argument argument) {
    if (argument instanceof Expression.Positional positional) {
      return text(positional.value());
    } else if (argument instanceof Expression.Input input) {
      return input.parameter() + " := " + text(input.value());
    }
    Expression.Output output = (Expression.Output) argument;
    return (output.negated() ? "NOT " : "") + output.parameter() + " => " + output.target().map(DrawnWords::text)
        .orElse("");
  }

  // ---- statements

  private Void all(List<Statement> statements) {
    statements.forEach(statement -> statement.accept(this));
    return null;
  }

  private Void said(Position position, String words) {
    say(position, words);
    return null;
  }

  @Override
  public Void visit(Statement.Assignment e) {
    return said(e.position(), text(e.target()) + " := " + text(e.value()));
  }

  @Override
  public Void visit(Statement.Wire e) {
    return said(e.position(), text(e.name()) + " := " + text(e.value()) + e.condition().map(it -> " IF " + text(it))
        .orElse(""));
  }

  @Override
  public Void visit(Statement.If e) {
    for (Statement.Branch branch : e.branches()) {
      say(branch.position(), "IF " + text(branch.condition()) + " THEN");
      all(branch.body());
    }
    return all(e.otherwise());
  }

  @Override
  public Void visit(Statement.Case e) {
    say(e.position(), "CASE " + text(e.selector()));
    e.choices().forEach(choice -> {
      choice.labels().forEach(label -> say(label.low().position(), text(label.low()) + label.high().map(it -> ".."
          + text(it)).orElse("") + " :"));
      all(choice.body());
    });
    return all(e.otherwise().orElse(List.of()));
  }

  @Override
  public Void visit(Statement.For e) {
    say(e.position(), "FOR " + text(e.variable()) + " := " + text(e.from()) + " TO " + text(e.to()) + text(e.by()));
    return all(e.body());
  }

  @Override
  public Void visit(Statement.While e) {
    say(e.position(), "WHILE " + text(e.condition()));
    return all(e.body());
  }

  @Override
  public Void visit(Statement.Repeat e) {
    all(e.body());
    return said(e.position(), "REPEAT UNTIL " + text(e.until()));
  }

  @Override
  public Void visit(Statement.ChartStep e) {
    return said(e.position(), "STEP " + e.name() + String.join(" ", e.controls().stream().map(it -> it.target() + " ("
        + it.qualifier().map(Name::text).orElse("N") + text(it.time()) + ")").toList()));
  }

  @Override
  public Void visit(Statement.ChartTransition e) {
    return said(e.position(), "TRANSITION FROM " + e.from().stream().map(Name::text).toList() + " TO "
        + e.to().stream().map(Name::text).toList() + " := " + text(e.condition()));
  }

  @Override public Void visit(Statement.Invocation e) { return said(e.position(), text(e.call())); }
  @Override public Void visit(Statement.Exit e) { return said(e.position(), "EXIT"); }
  @Override public Void visit(Statement.Continue e) { return said(e.position(), "CONTINUE"); }
  @Override public Void visit(Statement.Return e) { return said(e.position(), "RETURN"); }
}
