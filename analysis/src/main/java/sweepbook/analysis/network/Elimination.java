package sweepbook.analysis.network;

import java.util.Arrays;

/** In which order the points of a network are removed, fewest neighbours first, so that few new ties arise. */
final class Elimination {
    private final int[][] neighbours; // of each point not yet removed, ascending
    private final int[] step;
    private final int[][] removedFrom; // step to neighbours at removal, as points
    private final DegreeQueue queue;

    /**
     * @param neighbours of each point, ascending, without itself; used up
     */
    Elimination(int[][] neighbours) {
        this.neighbours = neighbours;
        int points = neighbours.length;
        step = new int[points];
        removedFrom = new int[points][];
        queue = new DegreeQueue(points);
        for (int point = 0; point < points; point++) {
            queue.put(point, neighbours[point].length);
        }
        for (int k = 0; k < points; k++) {
            int point = queue.takeLeast();
            if (neighbours[point].length == points - k - 1) {
                removeAllFrom(k, point);
                return;
            }
            remove(k, point);
        }
    }

    private void remove(int k, int point) {
        int[] star = neighbours[point];
        step[point] = k;
        removedFrom[k] = star;
        for (int neighbour : star) {
            neighbours[neighbour] = union(neighbours[neighbour], star, point, neighbour);
            queue.put(neighbour, neighbours[neighbour].length);
        }
        neighbours[point] = null;
    }

    /** Everything left is tied to everything left: any order does. */
    private void removeAllFrom(int k, int point) {
        int[] rest = neighbours[point];
        step[point] = k;
        removedFrom[k] = rest;
        for (int i = 0; i < rest.length; i++) {
            step[rest[i]] = k + 1 + i;
            removedFrom[k + 1 + i] = Arrays.copyOfRange(rest, i + 1, rest.length);
        }
    }

    private static int[] union(int[] a, int[] b, int without1, int without2) {
        int[] merged = new int[a.length + b.length];
        int size = 0;
        int i = 0;
        int j = 0;
        while (i < a.length || j < b.length) {
            int next;
            if (j == b.length || i < a.length && a[i] < b[j]) {
                next = a[i++];
            } else {
                next = b[j++];
                if (i < a.length && a[i] == next) {
                    i++;
                }
            }
            if (next != without1 && next != without2) {
                merged[size++] = next;
            }
        }
        return size == merged.length ? merged : Arrays.copyOf(merged, size);
    }

    /** The step at which each point is removed. */
    int[] stepOf() {
        return step;
    }

    /** For each step, the steps, ascending, of the points its point was still tied to. */
    int[][] laterNeighbours() {
        int[][] later = new int[removedFrom.length][];
        for (int k = 0; k < later.length; k++) {
            later[k] = Arrays.stream(removedFrom[k])
                    .map(point -> step[point])
                    .sorted()
                    .toArray();
        }
        return later;
    }

    /** Neighbours of each point by the edges; ground is nobody's neighbour. */
    static int[][] neighbours(int points, int[] from, int[] to) {
        int[] count = new int[points];
        for (int e = 0; e < from.length; e++) {
            if (from[e] >= 0 && to[e] >= 0) {
                count[from[e]]++;
                count[to[e]]++;
            }
        }
        int[][] neighbours = new int[points][];
        for (int point = 0; point < points; point++) {
            neighbours[point] = new int[count[point]];
        }
        for (int e = 0; e < from.length; e++) {
            if (from[e] >= 0 && to[e] >= 0) {
                neighbours[from[e]][--count[from[e]]] = to[e];
                neighbours[to[e]][--count[to[e]]] = from[e];
            }
        }
        for (int point = 0; point < points; point++) {
            neighbours[point] =
                    Arrays.stream(neighbours[point]).sorted().distinct().toArray();
        }
        return neighbours;
    }

    /** Points in chains by their degree. */
    private static final class DegreeQueue {
        private static final int NONE = -1;

        private final int[] first;
        private final int[] next;
        private final int[] previous;
        private final int[] degree;
        private int least;

        DegreeQueue(int points) {
            first = filled(points);
            next = filled(points);
            previous = filled(points);
            degree = filled(points);
        }

        private static int[] filled(int size) {
            int[] array = new int[size];
            Arrays.fill(array, NONE);
            return array;
        }

        void put(int point, int newDegree) {
            if (degree[point] == newDegree) {
                return;
            }
            if (degree[point] != NONE) {
                unlink(point);
            }
            degree[point] = newDegree;
            next[point] = first[newDegree];
            previous[point] = NONE;
            if (first[newDegree] != NONE) {
                previous[first[newDegree]] = point;
            }
            first[newDegree] = point;
            least = Math.min(least, newDegree);
        }

        int takeLeast() {
            while (first[least] == NONE) {
                least++;
            }
            int point = first[least];
            unlink(point);
            return point;
        }

        private void unlink(int point) {
            if (previous[point] == NONE) {
                first[degree[point]] = next[point];
            } else {
                next[previous[point]] = next[point];
            }
            if (next[point] != NONE) {
                previous[next[point]] = previous[point];
            }
        }
    }
}
