package dev.pawl.trace.intake;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.source.NearName;
import dev.pawl.trace.bindings.Bindings;
import dev.pawl.trace.bindings.Conversion;
import dev.pawl.trace.bindings.TagBinding;
import dev.pawl.trace.bytes.NameTable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The tags of a trace as numbers: those that carry a signal first, then the others as they turn up, so that rows of a
 * tag that is left out cost no more than those of one that is not.
 */
public final class Channels {

  /** Tags beyond this number that carry no signal are looked up the slow way. */
  private static final int MOST_LEARNT = 256;

  private final RuleBook book;
  private final Bindings bindings;
  private final List<String> tags = new ArrayList<>();
  private final Map<String, Integer> late = new HashMap<>();
  private final int bound;
  private final BoundTags boundTags;
  private NameTable table;
  private ValueReader[] readers;
  private Role[] roles;
  private int[] signals;

  /** What a tag is to this run. */
  enum Role {
    SIGNAL,
    IGNORED,
    UNBOUND
  }

  /**
   * The channels of a rule book under bindings.
   *
   * @param needed by signal index, whether its events are to be sent on; the others are only checked
   * @param point what stands before the decimals of numbers
   */
  public Channels(RuleBook book, Bindings bindings, boolean[] needed, char point) {
    this.book = book;
    this.bindings = bindings;
    TagBinding[] bySignal = new TagBinding[book.signals().size()];
    bindings.tags().forEach(tag -> bySignal[tag.signal()] = tag);
    int count = book.signals().size();
    readers = new ValueReader[count];
    roles = new Role[count];
    signals = new int[count];
    byte[] flips = new byte[count];
    for (Signal signal : book.signals()) {
      int index = signal.index();
      TagBinding tag = bySignal[index];
      tags.add(tag == null ? signal.name() : tag.tag());
      readers[index] = ValueReader.of(signal, tag == null ? new Conversion.Plain() : tag.conversion(), bindings.words(),
          point);
      roles[index] = Role.SIGNAL;
      signals[index] = needed[index] ? index : -1;
      flips[index] = (byte) (readers[index] instanceof ValueReader.Bit bit ? bit.flip() : -1);
    }
    this.bound = count;
    this.table = new NameTable(tags);
    this.boundTags = new BoundTags(table, readers.clone(), flips);
  }

  /** The channel of a tag; -1 if the tag has not turned up before. */
  public int find(byte[] bytes, int from, int length) {
    return table.find(bytes, from, length);
  }

  /** The channel of a tag, which is learnt if it is new. */
  public int learn(String tag) {
    int known = table.find(tag);
    if (known >= 0) {
      return known;
    }
    if (late.containsKey(tag)) {
      return late.get(tag);
    }
    Role role = bindings.ignores(tag) ? Role.IGNORED : Role.UNBOUND;
    if (tags.size() - bound < MOST_LEARNT && tag.indexOf('\n') < 0) {
      tags.add(tag);
      grow(tags.size());
      roles[tags.size() - 1] = role;
      table = new NameTable(tags);
      return tags.size() - 1;
    }
    return lateChannel(tag, role);
  }

  /** The channel of a tag if it carries a signal or is left out on purpose; else -1. */
  public int learnIfKnown(String tag) {
    int known = table.find(tag);
    return known >= 0 && roles[known] != Role.UNBOUND ? known : bindings.ignores(tag) ? learn(tag) : -1;
  }

  /** The second of two names of a tag, if only that is one of a signal; else the first. */
  public String signalOf(String first, String second) {
    return boundTags.table().find(first) < 0 && boundTags.table().find(second) >= 0 ? second : first;
  }

  /** One channel for all ignored and one for all unbound tags that came too late to get their own. */
  private int lateChannel(String tag, Role role) {
    String shared = "\u0000" + role;
    Integer channel = late.get(shared);
    if (channel == null) {
      channel = roles.length;
      grow(channel + 1);
      roles[channel] = role;
      late.put(shared, channel);
    }
    if (late.size() < 16 * MOST_LEARNT) {
      late.put(tag, channel);
    }
    return channel;
  }

  private void grow(int size) {
    int length = Math.max(size, roles.length + 1);
    readers = Arrays.copyOf(readers, length);
    roles = Arrays.copyOf(roles, length);
    signals = Arrays.copyOf(signals, length);
    signals[length - 1] = -1;
  }

  /** Number of channels. */
  public int size() {
    return roles.length;
  }

  /** Whether a tag is left out on purpose. */
  public boolean ignores(String tag) {
    return bindings.ignores(tag);
  }

  /** Whether the channel carries a signal of the rules. */
  public boolean carriesSignal(int channel) {
    return roles[channel] == Role.SIGNAL;
  }

  /** Whether the channel's tag is left out on purpose. */
  public boolean isLeftOut(int channel) {
    return roles[channel] == Role.IGNORED;
  }

  /** Whether the channel's tag is neither a signal nor left out on purpose. */
  public boolean isUnbound(int channel) {
    return roles[channel] == Role.UNBOUND;
  }

  /** The reader of a channel that carries a signal. */
  public ValueReader reader(int channel) {
    return readers[channel];
  }

  /** The tags that carry signals. */
  public BoundTags boundTags() {
    return boundTags;
  }

  /** The signal to send on, or -1 if the channel is only checked. */
  int signal(int channel) {
    return signals[channel];
  }

  /** The tag of a channel of a signal. */
  public String tag(int channel) {
    return tags.get(channel);
  }

  /** Number of channels that carry signals; they come first, in the order of the rule book. */
  public int bound() {
    return bound;
  }

  /** What to do about an unbound tag. */
  public String advice(String tag) {
    for (TagBinding binding : bindings.tags()) {
      Signal signal = book.signals().get(binding.signal());
      if (signal.name().equals(tag)) {
        return "signal " + tag + " is bound to tag " + Excerpt.of(binding.tag())
            + "; bind it to this one, or ignore this one";
      }
    }
    return NearName.hint(tag, tags.subList(0, bound)).map(hint -> hint
        + " If not, bind or ignore it in a bindings file")
        .orElse("declare it in the rules, or list it under 'signals' or 'ignore' in a bindings file");
  }
}
