package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.model.Elementary;
import dev.pawl.grammar.logic.model.Variable;
import dev.pawl.grammar.source.Diagnostics;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Located variables whose addresses overlap: the narrower is a part of the wider, and has no memory of its own. Both
 * must be bit strings, so that the part of one is a value of the other.
 */
final class Overlaps {

  private static final Pattern ADDRESS = Pattern.compile("%([IQM])[XBWDL]([0-9]{1,9})(?:\\.([0-9]{1,9}))?");

  private final Diagnostics diagnostics;
  private final LanguageChoices choices;
  private final MemoryLayout memory;
  private final Map<Variable, Long> first = new IdentityHashMap<>();
  private final List<Stretch> located = new ArrayList<>();
  private final Map<Variable, Shared> shared = new IdentityHashMap<>();
  private final List<Variable> declared = new ArrayList<>();
  private boolean settled;
  private boolean bytes;

  Overlaps(Diagnostics diagnostics, LanguageChoices choices, MemoryLayout memory) {
    this.memory = memory;
    this.diagnostics = diagnostics;
    this.choices = choices;
  }

  /**
   * Where the memory of a variable is.
   *
   * @param wide the variable that it is a part of
   * @param shift its first bit there, from the least significant
   */
  record Shared(Variable wide, int shift, Elementary type) {}

  /** The bits that a located variable takes. */
  private record Stretch(Variable variable, Elementary type, String area, long first) {

    long end() {
      return first + type.bits();
    }

    boolean overlaps(Stretch other) {
      return area.equals(other.area) && first < other.end() && other.first < end();
    }

    boolean within(Stretch other) {
      return first >= other.first && end() <= other.end() && type.bits() < other.type.bits();
    }
  }

  /** Takes one more located variable. What comes after all declarations must not be wider than what was there. */
  void locate(Variable variable) {
    if (!settled) {
      declared.add(variable);
      return;
    }
    Optional<Stretch> stretch = stretch(variable);
    if (stretch.isPresent()) {
      located.add(stretch.get());
      settle(stretch.get());
      located.stream().filter(other -> other != stretch.get() && other.within(stretch.get())).findFirst()
          .ifPresent(other -> refuse(stretch.get(), other));
    }
  }

  /** Finds out which of those that are declared share their memory. */
  void settle() {
    settled = true;
    bytes = choices.addresses() == LanguageChoices.Addresses.BY_USE
        || choices.addresses() == LanguageChoices.Addresses.BYTES;
    declared.forEach(variable -> stretch(variable).ifPresent(located::add));
    if (choices.addresses() == LanguageChoices.Addresses.BY_USE && located.stream().anyMatch(this::cut)) {
      bytes = false;
      located.clear();
      declared.forEach(variable -> stretch(variable).ifPresent(located::add));
    }
    List.copyOf(located).forEach(this::settle);
  }

  Optional<Shared> of(Variable variable) {
    return Optional.ofNullable(shared.get(variable));
  }

  private void settle(Stretch own) {
    Optional<Stretch> widest = Optional.empty();
    for (Stretch other : located) {
      if (other != own && own.overlaps(other) && other.variable().offset() != own.variable().offset()) {
        if (own.within(other) && bits(own) && bits(other)) {
          widest = widest.filter(known -> known.type().bits() > other.type().bits()).or(() -> Optional.of(other));
        } else if (!other.within(own) || !bits(own) || !bits(other)) {
          refuse(own, other);
        }
      }
    }
    widest.ifPresent(wide -> share(own, wide));
  }

  /** What either has as its first value is in the first value of both. */
  private void share(Stretch own, Stretch wide) {
    Shared part = new Shared(wide.variable(), (int) (own.first() - wide.first()), own.type());
    shared.put(own.variable(), part);
    long word = first.getOrDefault(wide.variable(), wide.variable().initial().words()[0])
        | own.variable().initial().words()[0] << part.shift();
    first.put(wide.variable(), word);
    memory.restate(wide.variable().offset(), word);
  }

  /** Whether it and another would share what they cannot share, as %QW0 and %QW1 where numbers count bytes. */
  private boolean cut(Stretch own) {
    return located.stream().anyMatch(other -> own.overlaps(other)
        && own.variable().offset() != other.variable().offset()
        && !(bits(own) && bits(other) && (own.within(other) || other.within(own))));
  }

  private static boolean bits(Stretch stretch) {
    return stretch.type().isBits();
  }

  private void refuse(Stretch own, Stretch other) {
    boolean later = located.indexOf(own) > located.indexOf(other);
    Stretch told = later ? own : other;
    Stretch known = later ? other : own;
    diagnostics.cause(told.variable().position(), told.variable().address() + " overlaps " + known.variable().address()
        + ", which belongs to " + known.variable().name(),
        "only bit strings share their memory, the narrower as a part of the wider, which is declared in VAR_GLOBAL;"
            + " where the controller has memory of its own for each size, say --addresses apart",
        "overlap", "");
  }

  private Optional<Stretch> stretch(Variable variable) {
    Matcher parts = ADDRESS.matcher(variable.address());
    Optional<Elementary> type = variable.type().stored();
    if (!parts.matches() || type.isEmpty() || type.get().bits() > 1 && parts.group(3) != null) {
      return Optional.empty();
    }
    long number = Long.parseLong(parts.group(2));
    long first = type.get().bits() == 1
        ? parts.group(3) == null ? number : number * Byte.SIZE + Long.parseLong(parts.group(3))
        : number * (bytes ? Byte.SIZE : type.get().bits());
    String area = choices.addresses() == LanguageChoices.Addresses.APART ? parts.group(1) + type.get().bits()
        : parts.group(1);
    return Optional.of(new Stretch(variable, type.get(), area, first));
  }
}
