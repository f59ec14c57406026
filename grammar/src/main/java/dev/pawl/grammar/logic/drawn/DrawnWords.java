package dev.pawl.grammar.logic.drawn;

import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.logic.parse.SourceParser;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Initializer;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.logic.tree.VariableBlock;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;

/** What is declared in a drawn project, and what is written in it, in the words of Structured Text. */
public final class DrawnWords {

  private DrawnWords() {}

  /** Lists what stands outside of units. */
  static void list(List<Declaration> declarations, Legend legend) {
    for (Declaration declaration : declarations) {
      if (declaration instanceof Declaration.Globals globals) {
        list("", List.of(globals.block()), legend);
      } else if (declaration instanceof Declaration.TypeDeclaration type) {
        say("", type.name(), "TYPE " + type.name() + " : " + type(type.specification()), legend);
      } else if (declaration instanceof Declaration.Configuration configuration) {
        list("", configuration.globals(), legend);
        configuration.resources().forEach(resource -> list(resource, legend));
      }
    }
  }

  private static void list(Declaration.Resource resource, Legend legend) {
    list("", resource.globals(), legend);
    resource.tasks().forEach(task -> say("", task.name(), "TASK " + task.name() + part(" SINGLE", task.single())
        + part(" INTERVAL", task.interval()) + part(" PRIORITY", task.priority()), legend));
    resource.programs().forEach(program -> say("", program.name(), "PROGRAM " + program.name()
        + program.task().map(task -> " WITH " + task).orElse("") + " : " + program.type(), legend));
  }

  private static String part(String word, Optional<Expression> expression) {
    return expression.map(it -> word + text(Optional.of(it))).orElse("");
  }

  /** Lists variables. */
  static void list(String unit, List<VariableBlock> blocks, Legend legend) {
    for (VariableBlock block : blocks) {
      for (VariableBlock.Variables variables : block.declarations()) {
        variables.names().forEach(name -> say(unit, name, block.section() + " " + name + variables.address().map(it ->
            " AT " + it).orElse("") + " : " + type(variables.specification()) + variables.initial().map(it -> " := "
                + text(it)).orElse(""), legend));
      }
    }
  }

  private static void say(String unit, Name name, String words, Legend legend) {
    legend.list(() -> new Item(name.position().line(), unit, words.split(" ", 2)[0] + " " + name, words, List.of(),
        List.of()));
  }

  /** Lists the lines of a text; a line without the end of a statement shows what that does as a whole. */
  static void list(String unit, Fragment text, Legend legend) {
    List<Integer> open = new ArrayList<>();
    SourceParser.words(text).forEach((line, words) -> {
      open.add(0, line);
      List<Integer> lines = List.copyOf(open);
      legend.list(() -> new Item(line, unit, words.split(" (:=|=>|\\()| ", 2)[0], words, List.of(), lines));
      if (words.contains(";")) {
        open.clear();
      }
    });
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
    return initializer.match(
        value -> text(value.expression()),
        elements -> "[" + String.join(", ", elements.elements().stream().map(it -> it.count() + "(" + it.initial()
            .map(DrawnWords::text).orElse("") + ")").toList()) + "]",
        fields -> "(" + String.join(", ", fields.fields().stream().map(it -> it.name() + " := " + text(it.initial()))
            .toList()) + ")");
  }

  // ---- expressions

  private static String text(Optional<Expression> expression) {
    return expression.map(it -> " := " + text(it)).orElse("");
  }

  /** A name as written; of one that was made only what it is. */
  private static String text(Name name) {
    return name.text().indexOf(' ') < 0 ? name.text() : name.text().substring(0, name.text().indexOf(' '));
  }

  /** An expression. */
  public static String text(Expression expression) {
    return expression.accept(new Expression.Visitor<String>() {
      @Override public String visit(Expression.IntegerLiteral e) { return typed(e.type(), e.value().toString()); }
      @Override public String visit(Expression.RealLiteral e) { return typed(e.type(), e.value().toString()); }
      @Override public String visit(Expression.BooleanLiteral e) { return e.value() ? "TRUE" : "FALSE"; }
      @Override public String visit(Expression.StringLiteral e) { return typed(e.type(), "'" + e.value() + "'"); }
      @Override public String visit(Expression.TimeLiteral e) { return time(e); }
      @Override public String visit(Expression.QualifiedName e) { return e.type() + "#" + e.member(); }
      @Override public String visit(Expression.NameReference e) { return text(e.name()); }
      @Override public String visit(Expression.DirectReference e) { return e.address().text(); }
      @Override public String visit(Expression.Required e) { return text(e.operand()); }
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

  private static String time(Expression.TimeLiteral e) {
    String milliseconds = BigDecimal.valueOf(e.nanoseconds(), 6).stripTrailingZeros().toPlainString();
    return (e.type().equals("TIME") ? "T" : e.type()) + "#" + milliseconds + "ms";
  }

  private static String typed(Optional<Name> type, String value) {
    return type.map(it -> it + "#").orElse("") + value;
  }

  private static String text(Expression.Argument argument) {
    return argument.match(
        positional -> text(positional.value()),
        input -> input.parameter() + " := " + text(input.value()),
        output -> (output.negated() ? "NOT " : "") + output.parameter() + " => "
            + output.target().map(DrawnWords::text).orElse(""));
  }
}
