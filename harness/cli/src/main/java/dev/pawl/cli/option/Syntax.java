package dev.pawl.cli.option;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import picocli.CommandLine.Model.CommandSpec;

/**
 * How a command is written.
 *
 * @param description what its help says of it, a paragraph each
 * @param options in the order of the help
 * @param arguments what follows them
 */
public record Syntax(List<String> description, List<Option<?>> options, Optional<Operands> arguments) {

  public static Syntax of(List<Option<?>> options, Operands arguments, String... description) {
    return new Syntax(List.of(description), options, Optional.of(arguments));
  }

  /** All these options, in this order. */
  @SafeVarargs
  public static List<Option<?>> all(List<Option<?>>... subjects) {
    return Stream.of(subjects).<Option<?>>flatMap(List::stream).toList();
  }

  /** The long names of its options, and of the one that every command has. */
  public Stream<String> names() {
    return Stream.concat(options.stream().map(Option::name), Stream.of("--help"));
  }

  /** A text of the help for the parser, to which a % begins a format unless it is doubled. */
  static String literal(String text) {
    return text.replace("%", "%%");
  }

  /** The command of this name for the parser. */
  public CommandSpec spec(String name) {
    CommandSpec spec = CommandSpec.create().name(name);
    spec.usageMessage().description(description.stream().map(Syntax::literal).toArray(String[]::new));
    options.forEach(option -> spec.addOption(option.spec()));
    arguments.ifPresent(those -> spec.addPositional(those.spec()));
    return spec;
  }
}
