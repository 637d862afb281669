import { LinkProperty, NodeProperty, Project, Workspace } from 'epanet-js';

/** Networks for EPANET 2.2, the public-domain solver of the US EPA, as the npm package epanet-js carries it. SI units. */
export interface ReferenceNetwork {
  readonly law: { readonly kind: 'D-W'; readonly viscosity: number } | { readonly kind: 'H-W' };
  /** Held water levels, m. */
  readonly levels: Readonly<Record<string, number>>;
  /** Nodes between: elevation, m, and what is drawn there, m³/s (negative: put in). */
  readonly nodes?: Readonly<Record<string, { readonly elevation: number; readonly drawn: number }>>;
  readonly pipes: Readonly<Record<string, ReferencePipe>>;
}

export interface ReferencePipe {
  readonly from: string;
  readonly to: string;
  readonly length: number;
  readonly bore: number;
  /** Roughness, m, or the Hazen-Williams coefficient. */
  readonly wall: number;
  readonly k: number;
}

export interface ReferenceSolution {
  /** m³/s. */
  flow(pipe: string): number;
  /** Water line at a node, m. */
  head(node: string): number;
  /** Pressure head at a node, m. */
  pressure(node: string): number;
}

const LITRES_A_SECOND = 1000;
const MILLIMETRES = 1000;

export async function solveByReference(network: ReferenceNetwork): Promise<ReferenceSolution> {
  const workspace = new Workspace();
  await workspace.loadModule();
  workspace.writeFile('network.inp', inputText(network));
  const project = new Project(workspace);
  project.open('network.inp', 'report.rpt', 'out.bin');
  project.solveH();
  return {
    flow: (pipe) => project.getLinkValue(project.getLinkIndex(pipe), LinkProperty.Flow) / LITRES_A_SECOND,
    head: (node) => project.getNodeValue(project.getNodeIndex(node), NodeProperty.Head),
    pressure: (node) => project.getNodeValue(project.getNodeIndex(node), NodeProperty.Pressure),
  };
}

function inputText({ law, levels, nodes = {}, pipes }: ReferenceNetwork): string {
  const unit = law.kind === 'D-W' ? MILLIMETRES : 1;
  const lines = [
    '[RESERVOIRS]',
    ...Object.entries(levels).map(([id, level]) => `${id} ${level}`),
    '[JUNCTIONS]',
    ...Object.entries(nodes).map(([id, { elevation, drawn }]) => `${id} ${elevation} ${drawn * LITRES_A_SECOND}`),
    '[PIPES]',
    ...Object.entries(pipes).map(
      ([id, p]) => `${id} ${p.from} ${p.to} ${p.length} ${p.bore * MILLIMETRES} ${p.wall * unit} ${p.k} Open`,
    ),
    '[OPTIONS]',
    'Units LPS',
    `Headloss ${law.kind}`,
    law.kind === 'D-W' ? `Viscosity ${law.viscosity}` : '',
    'Accuracy 0.0000001',
    'Trials 500',
    '[END]',
  ];
  return `${lines.join('\n')}\n`;
}
