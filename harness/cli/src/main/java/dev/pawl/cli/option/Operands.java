package dev.pawl.cli.option;

import java.util.List;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/**
 * What follows the options of a command: names of files, folders and the like.
 *
 * @param label what stands for one in the help
 * @param range how many there may be
 * @param hidden whether the help is silent about them
 */
public record Operands(String label, String range, boolean hidden, String help) {

  /** Any number of them, or none. */
  public static Operands any(String label, String help) {
    return new Operands(label, "0..*", false, help);
  }

  /** One at least. */
  public static Operands some(String label, String help) {
    return new Operands(label, "1..*", false, help);
  }

  /** Any number, which an option can name as well; the help names only the option. */
  public static Operands unsaid(String label) {
    return new Operands(label, "0..*", true, "");
  }

  public static List<String> of(ParseResult words) {
    return words.matchedPositionalValue(0, List.<String>of());
  }

  PositionalParamSpec spec() {
    return PositionalParamSpec.builder().index("0..*").paramLabel(label).type(List.class).auxiliaryTypes(String.class)
        .arity(range).required(range.startsWith("1")).hidden(hidden).description(Syntax.literal(help)).build();
  }
}
