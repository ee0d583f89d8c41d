// The part in three dimensions: turnable, painted, lying as it will be printed.

import * as THREE from "three";
import { OrbitControls } from "three/addons/controls/OrbitControls.js";
import type { Vector } from "../checker/component/interfaces/layload-parts-checker.js";
import type { LoadedPart } from "../checker/protocol.js";
import { LayeredMaterial, drawnSpacing } from "./layers.js";
import { type Quantity, colorOf } from "./scale.js";

const TURN = Math.PI / 24;

/** Picked facet and where it is on the canvas. */
export type Picked = (facet: number | undefined) => void;

/** A view of one part. Throws where the browser draws no three dimensions. */
export class Scene {
  private readonly renderer: THREE.WebGLRenderer;
  private readonly scene = new THREE.Scene();
  private readonly camera = new THREE.PerspectiveCamera(28, 1, 0.1, 1e5);
  private readonly controls: OrbitControls;
  private readonly material = new LayeredMaterial();
  /** Turns the build direction upward. */
  private readonly lying = new THREE.Group();
  private readonly bed: THREE.GridHelper;
  private mesh: THREE.Mesh | undefined;
  private size = 100;
  private readonly up = new THREE.Vector3();
  private waiting = false;

  constructor(
    private readonly canvas: HTMLCanvasElement,
    picked: Picked,
  ) {
    this.renderer = new THREE.WebGLRenderer({ canvas, antialias: true, alpha: true });
    this.renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    this.scene.add(new THREE.HemisphereLight(0xffffff, 0xb4b8bb, 2.6));
    const key = new THREE.DirectionalLight(0xffffff, 0.9);
    key.position.set(-1, 2, 1.5);
    this.camera.add(key);
    this.bed = new THREE.GridHelper(1, 20, 0x7d8a90, 0x9aa6ab);
    (this.bed.material as THREE.Material).transparent = true;
    (this.bed.material as THREE.Material).opacity = 0.35;
    this.bed.visible = false;
    this.scene.add(this.camera, this.lying, this.bed);
    this.controls = new OrbitControls(this.camera, canvas);
    this.controls.addEventListener("change", () => this.draw());
    canvas.addEventListener("keydown", (event) => this.key(event));
    this.pickOn(picked);
    new ResizeObserver(() => this.fit()).observe(canvas.parentElement ?? canvas);
    this.fit();
  }

  /** Shows another part. */
  show({ pointsMm, corners }: LoadedPart) {
    const positions = new Float32Array(corners.length * 3);
    corners.forEach((point, corner) => positions.set(pointsMm.subarray(point * 3, point * 3 + 3), corner * 3));
    const geometry = new THREE.BufferGeometry();
    geometry.setAttribute("position", new THREE.BufferAttribute(positions, 3));
    geometry.setAttribute("color", new THREE.BufferAttribute(new Float32Array(positions.length).fill(0.72), 3));
    geometry.computeBoundingBox();
    geometry.computeBoundingSphere();
    this.mesh?.geometry.dispose();
    this.lying.clear();
    this.mesh = new THREE.Mesh(geometry, this.material);
    this.lying.add(this.mesh);
    this.bed.visible = true;
    this.size = 2 * (geometry.boundingSphere?.radius ?? 50);
    this.up.set(0, 0, 0);
  }

  /** Paints every facet by its value; without a quantity the part is plain. */
  paint(quantity: Quantity | undefined, values: Float32Array | undefined) {
    const color = this.mesh?.geometry.getAttribute("color") as THREE.BufferAttribute | undefined;
    if (!color) return;
    const plain: [number, number, number] = [0.72, 0.74, 0.75];
    const linear = new THREE.Color();
    for (let facet = 0; facet * 3 < color.count; facet++) {
      const share = quantity && values ? colorOf(quantity, values[facet] ?? Number.NaN) : plain;
      linear.setRGB(...share, THREE.SRGBColorSpace);
      for (let corner = 0; corner < 3; corner++) color.setXYZ(facet * 3 + corner, linear.r, linear.g, linear.b);
    }
    color.needsUpdate = true;
    this.draw();
  }

  /** Lays the part so that `direction` points up from the bed; says how many layers lie between two lines. */
  lay(direction: Vector, layerMm: number, lines: boolean): number {
    const up = new THREE.Vector3(direction.x, direction.y, direction.z).normalize();
    this.lying.quaternion.setFromUnitVectors(up, new THREE.Vector3(0, 1, 0));
    this.lying.position.set(0, 0, 0);
    this.lying.updateMatrixWorld(true);
    if (!this.mesh) return 1;
    const box = new THREE.Box3().setFromObject(this.mesh, true);
    const middle = box.getCenter(new THREE.Vector3());
    this.lying.position.set(-middle.x, -box.min.y, -middle.z);
    this.lying.updateMatrixWorld(true);
    const { spacing, each } = drawnSpacing(this.size, layerMm);
    this.material.layers(up, lines ? spacing : 0);
    this.bed.scale.setScalar(this.size * 1.5);
    // Lying otherwise it may stand out of the view; a change of anything else leaves the user's view alone.
    if (!this.up.equals(up)) this.home();
    this.up.copy(up);
    this.draw();
    return each;
  }

  /** Back to the first view: the whole part, the longest way of it across the view. */
  home() {
    if (!this.mesh) return;
    const box = new THREE.Box3().setFromObject(this.mesh);
    const size = box.getSize(new THREE.Vector3());
    const middle = box.getCenter(new THREE.Vector3());
    const back = new THREE.Vector3(...(size.x >= size.z ? ([0.35, 0.6, 0.85] as const) : ([0.85, 0.6, 0.35] as const)));
    back.normalize();
    const right = new THREE.Vector3(0, 1, 0).cross(back).normalize();
    const up = back.clone().cross(right);
    const high = Math.tan((this.camera.fov * Math.PI) / 360);
    const wide = high * this.camera.aspect;
    let far = 0;
    for (let corner = 0; corner < 8; corner++) {
      const at = new THREE.Vector3(
        corner & 1 ? box.max.x : box.min.x,
        corner & 2 ? box.max.y : box.min.y,
        corner & 4 ? box.max.z : box.min.z,
      ).sub(middle);
      const needed = Math.max(Math.abs(at.dot(right)) / wide, Math.abs(at.dot(up)) / high);
      far = Math.max(far, at.dot(back) + needed);
    }
    this.controls.target.copy(middle);
    this.camera.position.copy(middle).addScaledVector(back, far * 1.08);
    this.camera.near = this.size / 200;
    this.camera.far = this.size * 50;
    this.camera.updateProjectionMatrix();
    this.controls.update();
    this.draw();
  }

  /** Angles of the view, for tests and for those who cannot see it. */
  view(): string {
    const turned = THREE.MathUtils.radToDeg(this.controls.getAzimuthalAngle());
    const above = 90 - THREE.MathUtils.radToDeg(this.controls.getPolarAngle());
    return `turned ${Math.round(turned)}°, seen from ${Math.round(above)}° above the bed`;
  }

  private key(event: KeyboardEvent) {
    const turns: Record<string, [number, number, number]> = {
      ArrowLeft: [-TURN, 0, 1],
      ArrowRight: [TURN, 0, 1],
      ArrowUp: [0, -TURN, 1],
      ArrowDown: [0, TURN, 1],
      "+": [0, 0, 0.9],
      "=": [0, 0, 0.9],
      "-": [0, 0, 1 / 0.9],
    };
    if (event.key === "Home") {
      event.preventDefault();
      this.home();
      return;
    }
    const turn = turns[event.key];
    if (!turn || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    const target = this.controls.target;
    const place = new THREE.Spherical().setFromVector3(this.camera.position.clone().sub(target));
    place.theta += turn[0];
    place.phi = THREE.MathUtils.clamp(place.phi + turn[1], 0.05, Math.PI - 0.05);
    place.radius *= turn[2];
    this.camera.position.setFromSpherical(place).add(target);
    this.controls.update();
    this.draw();
  }

  private pickOn(picked: Picked) {
    let pressed: [number, number] | undefined;
    this.canvas.addEventListener("pointerdown", ({ clientX, clientY }) => {
      pressed = [clientX, clientY];
    });
    this.canvas.addEventListener("pointerup", ({ clientX, clientY }) => {
      const still = pressed && Math.hypot(clientX - pressed[0], clientY - pressed[1]) < 4;
      if (!still || !this.mesh) return;
      const box = this.canvas.getBoundingClientRect();
      const x = ((clientX - box.left) / box.width) * 2 - 1;
      const y = 1 - ((clientY - box.top) / box.height) * 2;
      const ray = new THREE.Raycaster();
      ray.setFromCamera(new THREE.Vector2(x, y), this.camera);
      picked(ray.intersectObject(this.mesh)[0]?.faceIndex ?? undefined);
    });
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
      this.canvas.dataset["view"] = this.view();
    });
  }
}
