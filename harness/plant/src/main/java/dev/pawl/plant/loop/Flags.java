package dev.pawl.plant.loop;

import dev.pawl.plant.motion.Course;
import dev.pawl.plant.motion.Plant;
import dev.pawl.plant.motion.Train;
import dev.pawl.plant.ride.Flag;
import dev.pawl.plant.scenario.Fault;
import java.util.List;

/**
 * All flags of a ride, and the trains beside them. As long as no edge of a target can have come to a flag, none is
 * looked
 * at.
 */
final class Flags {

  private static final int HALVINGS = 50;

  private final Course course;
  private final List<Flag> flags;
  private final FlagOutput[] outputs;
  private final boolean[][] beside;
  private final int[] trains;
  private final double[] low;
  private final double[] high;
  private final int[] track;

  Flags(List<Flag> flags, Plant plant) {
    this.course = plant.course();
    this.flags = flags;
    int count = plant.trains().size();
    outputs = new FlagOutput[flags.size()];
    beside = new boolean[count][flags.size()];
    trains = new int[flags.size()];
    low = new double[count];
    high = new double[count];
    track = new int[count];
    for (Train train : plant.trains()) {
      double nose = train.nose(0);
      for (int flag = 0; flag < flags.size(); flag++) {
        beside[train.index()][flag] = isBeside(train, train.track(), flag, nose);
        trains[flag] += beside[train.index()][flag] ? 1 : 0;
      }
      bound(train, nose);
    }
    for (int flag = 0; flag < flags.size(); flag++) {
      outputs[flag] = new FlagOutput(flags.get(flag).delay(), flags.get(flag).filter(), trains[flag] > 0);
    }
  }

  boolean at(int flag, double time) {
    return outputs[flag].at(time);
  }

  /**
   * Lets a flag fail, or mends it.
   *
   * @param signal that it shows
   * @param amount seconds or times; 0 for none of it any more
   */
  void fail(String signal, Fault fault, double amount) {
    for (int flag = 0; flag < outputs.length; flag++) {
      if (flags.get(flag).signal().text().equals(signal)) {
        switch (fault) {
          case MISSED -> outputs[flag].miss((int) amount);
          case CHATTERING -> outputs[flag].chatter(amount);
          default -> outputs[flag].late(amount);
        }
      }
    }
  }

  /** Follows a train from one time to another, when its nose is at a place. */
  void moved(Train train, double from, double to, double nose) {
    int index = train.index();
    if (nose > low[index] && nose < high[index] && track[index] == train.track()) {
      return;
    }
    for (int flag = 0; flag < outputs.length; flag++) {
      boolean now = isBeside(train, train.track(), flag, nose);
      if (now != beside[index][flag]) {
        double time = turning(train, flag, from, to, now);
        beside[index][flag] = now;
        trains[flag] += now ? 1 : -1;
        outputs[flag].see(time, trains[flag] > 0);
      }
    }
    bound(train, nose);
  }

  private double turning(Train train, int flag, double from, double to, boolean after) {
    double before = from;
    double then = to;
    for (int i = 0; i < HALVINGS && then - before > 1e-10; i++) {
      double middle = (before + then) / 2;
      if (isBeside(train, train.track(), flag, train.nose(middle)) == after) {
        then = middle;
      } else {
        before = middle;
      }
    }
    return then;
  }

  /** Metres from the nose of a train back to a flag; negative where the flag is not on its way. */
  private double behindNose(int trainTrack, int flag, double nose) {
    Flag at = flags.get(flag);
    double length = course.length(0);
    if (trainTrack == 0) {
      if (at.track() != 0) {
        return -1;
      }
      double behind = (nose - at.place()) % length;
      return behind < 0 ? behind + length : behind;
    }
    double place = course.switchPlace(trainTrack);
    return at.track() == trainTrack ? nose - place - at.place() : at.track() == 0 && at.place() < place ? nose - at
        .place() : -1;
  }

  private boolean isBeside(Train train, int trainTrack, int flag, double nose) {
    double behind = behindNose(trainTrack, flag, nose);
    Train.Kind kind = train.kind();
    if (behind < 0 || behind >= kind.length()) {
      return false;
    }
    return kind.gap() == 0 || behind % (kind.target() + kind.gap()) < kind.target();
  }

  /** Works out between which places of its nose nothing can change for a train. */
  private void bound(Train train, double nose) {
    int index = train.index();
    track[index] = train.track();
    double back = Double.POSITIVE_INFINITY;
    double on = Double.POSITIVE_INFINITY;
    Train.Kind kind = train.kind();
    double period = kind.gap() == 0 ? kind.length() : kind.target() + kind.gap();
    for (int flag = 0; flag < outputs.length; flag++) {
      double behind = behindNose(train.track(), flag, nose);
      double length = course.length(0);
      Flag at = flags.get(flag);
      boolean circuit = train.track() == 0;
      if (circuit && at.track() == 0) {
        on = Math.min(on, length - behind);
        back = Math.min(back, behind);
      } else if (at.track() == train.track() || at.track() == 0) {
        double ahead = train.track() == at.track() ? at.place() + course.switchPlace(train.track()) - nose
            : at.place() - nose;
        on = ahead > 0 ? Math.min(on, ahead) : on;
        back = behind >= 0 ? Math.min(back, behind) : back;
      }
      if (behind >= 0 && behind < kind.length()) {
        double within = behind % period;
        boolean beside = kind.gap() == 0 || within < kind.target();
        on = Math.min(on, Math.min(kind.length() - behind, beside && kind.gap() > 0 ? kind.target() - within
            : period - within));
        back = Math.min(back, beside ? within : within - kind.target());
      } else if (behind >= kind.length()) {
        back = Math.min(back, behind - kind.length());
      }
    }
    low[index] = nose - Math.max(back, 1e-9);
    high[index] = nose + Math.max(on, 1e-9);
  }
}
