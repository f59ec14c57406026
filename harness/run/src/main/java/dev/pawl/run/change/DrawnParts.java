package dev.pawl.run.change;

import dev.pawl.grammar.logic.drawn.Item;
import dev.pawl.grammar.source.Source;
import dev.pawl.logic.ProgramLine;
import dev.pawl.report.model.ProgramPlace;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;

/** A drawn project, element by element in the order of evaluation, with its declarations and texts. */
final class DrawnParts implements ProgramParts {

  private final Source source;
  private final List<Item> items;
  private final List<String> keys = new ArrayList<>();
  private final Set<Integer> beginnings;
  private final Map<Integer, Integer> atLine = new HashMap<>();

  /**
   * @param items all there is in the project
   * @param beginnings lines, from 0, at which statements begin
   */
  DrawnParts(Source source, List<Item> items, Set<Integer> beginnings) {
    this.source = source;
    this.items = items;
    this.beginnings = beginnings;
    for (int i = 0; i < items.size(); i++) {
      keys.add(key(i));
      atLine.putIfAbsent(items.get(i).line(), i);
    }
  }

  /** What is the same for two elements that do the same: all that leads to them is the same too. */
  private String key(int index) {
    Item item = items.get(index);
    StringBuilder key = new StringBuilder(item.head()).append('\n').append(item.words());
    for (Item.Wire wire : item.wires()) {
      boolean known = wire.from() >= 0 && wire.from() < index;
      key.append('\n').append(wire.pin()).append('\n').append(wire.source()).append('\n')
          .append(known ? keys.get(wire.from()) : "");
    }
    return UUID.nameUUIDFromBytes(key.toString().getBytes(StandardCharsets.UTF_8)).toString();
  }

  @Override
  public Source source() {
    return source;
  }

  @Override
  public List<String> keys() {
    return keys;
  }

  @Override
  public boolean isSpoken(int part) {
    return true;
  }

  @Override
  public ProgramPlace place(int part) {
    Item item = items.get(part);
    return new ProgramPlace(source.name(), item.line(), item.text());
  }

  @Override
  public String head(int part) {
    return items.get(part).head();
  }

  @Override
  public String kind(int part) {
    return head(part).split(" ", 2)[0];
  }

  @Override
  public ProgramLine programLine(int part) {
    return new ProgramLine(source.name(), items.get(part).line());
  }

  @Override
  public Optional<Integer> beginning(int part) {
    return items.get(part).begins().stream().filter(line -> beginnings.contains(line - 1)).findFirst()
        .map(line -> line == items.get(part).line() ? part : atLine.getOrDefault(line, part));
  }

  @Override
  public boolean isOnlyLedToOtherwise(int part, ProgramParts later, int laterPart, int[] partner) {
    if (!(later instanceof DrawnParts drawn)) {
      return false;
    }
    Item before = items.get(part);
    Item after = drawn.items.get(laterPart);
    boolean same = before.head().equals(after.head()) && before.words().equals(after.words())
        && before.wires().size() == after.wires().size();
    for (int i = 0; same && i < before.wires().size(); i++) {
      Item.Wire one = before.wires().get(i);
      Item.Wire other = after.wires().get(i);
      same = one.pin().equals(other.pin()) && (one.from() < 0 || other.from() < 0
          ? one.from() == other.from() && one.source().equals(other.source())
          : partner[one.from()] == other.from() && output(one).equals(drawn.output(other)));
    }
    return same;
  }

  /** Which output of its source a wire comes from. */
  private String output(Item.Wire wire) {
    String head = items.get(wire.from()).head();
    return wire.source().startsWith(head) ? wire.source().substring(head.length()) : wire.source();
  }
}
