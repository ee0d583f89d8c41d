// The sphere of build directions: every point a way up, coloured by its margin.

import * as THREE from "three";
import { OrbitControls } from "three/addons/controls/OrbitControls.js";
import type { DirectionScore, Vector } from "../checker/component/interfaces/layload-parts-checker.js";
import { type Quantity, colorOf } from "./scale.js";

/** Margin of a direction: 0 is bad, the limit is 1. */
export function marginScale(scores: DirectionScore[]): Quantity {
  const best = scores.reduce((most, { margin }) => Math.max(most, margin), 1);
  return { title: "Margin", unit: "", low: 0, high: Math.ceil(best * 2) / 2, limit: 1, badEnd: "low" };
}

/** A turnable sphere; pressing a point chooses it. */
export class Sphere {
  private readonly renderer: THREE.WebGLRenderer;
  private readonly scene = new THREE.Scene();
  private readonly camera = new THREE.PerspectiveCamera(30, 1, 0.1, 100);
  private readonly controls: OrbitControls;
  private readonly chosen: THREE.Mesh;
  private dots: THREE.InstancedMesh | undefined;
  private scores: DirectionScore[] = [];
  private waiting = false;

  constructor(
    private readonly canvas: HTMLCanvasElement,
    choose: (score: DirectionScore) => void,
  ) {
    this.renderer = new THREE.WebGLRenderer({ canvas, antialias: true, alpha: true });
    this.renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    this.scene.add(new THREE.HemisphereLight(0xffffff, 0x99a0a4, 3));
    const ball = new THREE.Mesh(
      new THREE.SphereGeometry(0.97, 48, 32),
      new THREE.MeshLambertMaterial({ color: 0x9aa4a8, transparent: true, opacity: 0.35 }),
    );
    this.chosen = new THREE.Mesh(
      new THREE.TorusGeometry(0.085, 0.018, 12, 40),
      new THREE.MeshBasicMaterial({ color: 0x0a2530 }),
    );
    this.chosen.visible = false;
    this.scene.add(ball, this.chosen, axes());
    // The mesh file's z is up, as on a printer's bed.
    this.camera.up.set(0, 0, 1);
    this.camera.position.set(3.2, -3.0, 2.2);
    this.controls = new OrbitControls(this.camera, canvas);
    this.controls.enablePan = false;
    this.controls.addEventListener("change", () => this.draw());
    let pressed: [number, number] | undefined;
    canvas.addEventListener("pointerdown", ({ clientX, clientY }) => {
      pressed = [clientX, clientY];
    });
    canvas.addEventListener("pointerup", ({ clientX, clientY }) => {
      if (!pressed || Math.hypot(clientX - pressed[0], clientY - pressed[1]) >= 4 || !this.dots) return;
      const box = canvas.getBoundingClientRect();
      const ray = new THREE.Raycaster();
      const x = ((clientX - box.left) / box.width) * 2 - 1;
      ray.setFromCamera(new THREE.Vector2(x, 1 - ((clientY - box.top) / box.height) * 2), this.camera);
      const index = ray.intersectObject(this.dots)[0]?.instanceId;
      const score = index === undefined ? undefined : this.scores[index];
      if (score) choose(score);
    });
    new ResizeObserver(() => this.fit()).observe(canvas.parentElement ?? canvas);
  }

  /** Shows scored directions. */
  show(scores: DirectionScore[]) {
    this.scores = scores;
    if (this.dots) {
      this.scene.remove(this.dots);
      this.dots.dispose();
    }
    const scale = marginScale(scores);
    const radius = Math.min(0.05, 1.1 / Math.sqrt(Math.max(scores.length, 1)) / 1.6);
    const dots = new THREE.InstancedMesh(
      new THREE.SphereGeometry(radius, 10, 8),
      new THREE.MeshLambertMaterial(),
      scores.length,
    );
    const place = new THREE.Matrix4();
    const color = new THREE.Color();
    scores.forEach(({ buildDirection: { x, y, z }, margin, pareto }, index) => {
      const grown = pareto ? 1.7 : 1;
      place.makeScale(grown, grown, grown).setPosition(x, y, z);
      dots.setMatrixAt(index, place);
      dots.setColorAt(index, color.setRGB(...colorOf(scale, margin), THREE.SRGBColorSpace));
    });
    this.dots = dots;
    this.scene.add(dots);
    this.fit();
  }

  /** Marks the direction that is chosen. */
  mark(direction: Vector | undefined) {
    this.chosen.visible = direction !== undefined;
    if (direction) {
      const at = new THREE.Vector3(direction.x, direction.y, direction.z).normalize();
      this.chosen.position.copy(at);
      this.chosen.quaternion.setFromUnitVectors(new THREE.Vector3(0, 0, 1), at);
    }
    this.draw();
  }

  private fit() {
    const { clientWidth: width, clientHeight: height } = this.canvas.parentElement ?? this.canvas;
    if (!width || !height) return;
    this.renderer.setSize(width, height, false);
    this.camera.aspect = width / height;
    this.camera.updateProjectionMatrix();
    this.draw();
  }

  private draw() {
    if (this.waiting) return;
    this.waiting = true;
    requestAnimationFrame(() => {
      this.waiting = false;
      this.renderer.render(this.scene, this.camera);
    });
  }
}

/** x, y and z of the mesh file. */
function axes(): THREE.Object3D {
  const group = new THREE.Group();
  for (const end of [new THREE.Vector3(1.25, 0, 0), new THREE.Vector3(0, 1.25, 0), new THREE.Vector3(0, 0, 1.25)]) {
    const line = new THREE.BufferGeometry().setFromPoints([new THREE.Vector3(), end]);
    group.add(new THREE.Line(line, new THREE.LineBasicMaterial({ color: 0x55626a })));
  }
  return group;
}
