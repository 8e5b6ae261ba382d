package sweepbook.analysis.network;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Points on one axis, and differences observed between them, more of them than needed.
 *
 * @param fixed_mm points whose places are given; may be empty, then only differences between points come out
 * @param observations in the order they were made
 */
public record Network(Map<String, Double> fixed_mm, List<Observation> observations) {
    public Network {
        fixed_mm = Map.copyOf(fixed_mm);
        observations = List.copyOf(observations);
    }

    /** Least squares: the places that disagree least with all observations, weighed by their uncertainties. */
    public Adjustment adjust(Sigma sigma, Reliability reliability) {
        return new Adjustment(new Graph(this), sigma, reliability);
    }

    /**
     * All observations that do not fit: the worst is set aside and the rest adjusted again, until the rest agrees. Ends
     * early, with all of them, where several cannot be told apart.
     */
    public List<Residual> misfits(Sigma sigma, Reliability reliability) {
        List<Residual> all = new ArrayList<>();
        Network rest = this;
        List<Residual> worst = adjust(sigma, reliability).misfits();
        while (worst.size() == 1) {
            all.addAll(worst);
            rest = rest.without(worst.get(0).observation());
            worst = rest.adjust(sigma, reliability).misfits();
        }
        all.addAll(worst);
        return List.copyOf(all);
    }

    /** The same network without one observation. */
    Network without(Observation observation) {
        List<Observation> rest = new ArrayList<>(observations);
        rest.remove(observation);
        return new Network(fixed_mm, rest);
    }

    /** The network with its points numbered, and each island of them tied to something that does not move. */
    static final class Graph {
        final Network network;
        final int[] from;
        final int[] to;
        final double[] weight;
        /** Number of each free point; fixed ones and the datum of each loose island are ground. */
        final Map<String, Integer> number = new LinkedHashMap<>();
        /** Place of each point that is ground. */
        final Map<String, Double> ground_mm = new HashMap<>();
        /** Island of each point; two points of different islands have no known difference. */
        final Map<String, String> island = new HashMap<>();

        static final String FIXED = ""; // no point can be called so: the island of all points tied to fixed ones

        Graph(Network network) {
            this.network = network;
            ground_mm.putAll(network.fixed_mm);
            findIslands();
            for (String point : island.keySet().stream().sorted().toList()) {
                if (!ground_mm.containsKey(point)) {
                    number.put(point, number.size());
                }
            }
            int edges = network.observations.size();
            from = new int[edges];
            to = new int[edges];
            weight = new double[edges];
            for (int e = 0; e < edges; e++) {
                Observation observation = network.observations.get(e);
                from[e] = number.getOrDefault(observation.from(), StarMesh.GROUND);
                to[e] = number.getOrDefault(observation.to(), StarMesh.GROUND);
                double u = observation.difference().stdU();
                weight[e] = 1 / (u * u);
            }
        }

        private void findIslands() {
            Map<String, List<String>> neighbours = new LinkedHashMap<>();
            for (Observation observation : network.observations) {
                neighbours
                        .computeIfAbsent(observation.from(), name -> new ArrayList<>())
                        .add(observation.to());
                neighbours
                        .computeIfAbsent(observation.to(), name -> new ArrayList<>())
                        .add(observation.from());
            }
            for (String fixed : network.fixed_mm.keySet()) {
                flood(fixed, FIXED, neighbours);
            }
            for (String point : neighbours.keySet()) {
                if (!island.containsKey(point)) {
                    ground_mm.put(point, 0.0);
                    flood(point, point, neighbours);
                }
            }
        }

        private void flood(String start, String name, Map<String, List<String>> neighbours) {
            Deque<String> reached = new ArrayDeque<>(List.of(start));
            while (!reached.isEmpty()) {
                String point = reached.pop();
                if (island.putIfAbsent(point, name) == null) {
                    reached.addAll(neighbours.getOrDefault(point, List.of()));
                }
            }
        }
    }
}
