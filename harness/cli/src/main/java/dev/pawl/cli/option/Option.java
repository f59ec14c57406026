package dev.pawl.cli.option;

import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** One option: how it is named, what its help says, and what its words mean. The options of a subject are constants. */
public final class Option<T> {

  private final String[] names;
  private final String label;
  private final Class<?> words;
  private final String help;
  private final Function<ParseResult, T> reader;
  private final Optional<String> usual;

  private Option(String[] names, String label, Class<?> words, String help, Function<ParseResult, T> reader,
      Optional<String> usual) {
    this.names = names;
    this.label = label;
    this.words = words;
    this.help = help;
    this.reader = reader;
    this.usual = usual;
  }

  /** An option without a word; its long name is the last. */
  public static Option<Boolean> flag(String help, String... names) {
    return new Option<>(names, "", boolean.class, help, given -> given.hasMatchedOption(last(names)),
        Optional.empty());
  }

  /** An option with one word, for which the label stands in the help. */
  public static Option<Optional<String>> text(String label, String help, String... names) {
    return new Option<>(names, label, String.class, help,
        given -> Optional.ofNullable(given.matchedOptionValue(last(names), (String) null)), Optional.empty());
  }

  /** The same for an option that can be given several times. */
  public static Option<List<String>> list(String label, String help, String... names) {
    return new Option<>(names, label, List.class, help,
        given -> given.matchedOptionValue(last(names), List.<String>of()), Optional.empty());
  }

  private static String last(String... names) {
    return names[names.length - 1];
  }

  /** The same where the words mean something. */
  public <R> Option<R> as(Meaning<T, R> meaning) {
    return new Option<>(names, label, words, help, given -> meaning.of(name(), reader.apply(given)),
        usual);
  }

  /** The same for a command to which it matters in another way. */
  public Option<T> withHelp(String other) {
    return new Option<>(names, label, words, other, reader, usual);
  }

  /** The same with the word that it is as good as where none is given, and its meaning alone does not show. */
  public Option<T> usually(String word) {
    return new Option<>(names, label, words, help, reader, Optional.of(word));
  }

  public String name() {
    return last(names);
  }

  public boolean isGiven(ParseResult given) {
    return given.hasMatchedOption(name());
  }

  /** What the words of a command mean by it, or the usual where it is not given. */
  public T of(ParseResult given) {
    return reader.apply(given);
  }

  /** What a command was told by it, or the usual, as a record of the run says it. */
  String stated(ParseResult given) {
    if (!isGiven(given)) {
      return usual.orElseGet(() -> word(reader.apply(given))) + " (usual)";
    }
    return words == boolean.class ? "yes" : String.join(", ", given.matchedOption(name()).stringValues());
  }

  private static String word(Object value) {
    if (value instanceof Optional<?> optional) {
      return optional.map(Option::word).orElse("none");
    } else if (value instanceof Boolean flag) {
      return flag ? "yes" : "no";
    } else if (value instanceof Enum<?> member) {
      return member.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
    boolean none = value instanceof Collection<?> some && some.isEmpty() || value instanceof Map<?, ?> map
        && map.isEmpty();
    return none ? "none" : value.toString();
  }

  OptionSpec spec() {
    OptionSpec.Builder spec = OptionSpec.builder(names).type(words).description(Syntax.literal(help));
    if (words == boolean.class) {
      return spec.arity("0").build();
    }
    return (words == List.class ? spec.auxiliaryTypes(String.class) : spec).paramLabel(label).arity("1").build();
  }
}
