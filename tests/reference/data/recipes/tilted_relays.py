"""Coupling through two real lenses, decentred and tilted: conics, even aspheres, balls. Written apart from the program's rays and fields.

Each guide's Gaussian is carried by a Hankel integral of its exact angular spectrum to a plane before its lens; rays normal to the wavefront
found there are refracted as vectors at the surfaces of the lens, which is turned and shifted as a whole about its middle (M. Born and E. Wolf,
Principles of Optics, 7th ed., sections 3.1.2 and 3.2, from memory); amplitude by the area of the tube of rays, phase by the optical path,
both as polynomials behind the lens. Field 1 goes on by its angular spectrum and is overlapped with that of the other guide. Modes are many
Rayleigh ranges from their lenses. Reads and rewrites ../tilted-relays.json: python3 tilted_relays.py (a minute).
"""
import json
import pathlib

import numpy as np
from scipy.integrate import simpson
from scipy.interpolate import make_interp_spline
from scipy.special import j0

def turned(tx):
    c,s=np.cos(tx),np.sin(tx)  # axis (0,0,1)->(s,0,c)
    return np.array([[c,0,s],[0,1,0],[-s,0,c]])
class Lens:
    def __init__(s,kind,n,t,R=None,K=0,A=()):
        s.kind,s.n,s.t,s.R,s.K,s.A=kind,n,t,R,K,A
    def sag(s,r2):
        if s.kind=='ball':
            c,K,A=2/s.t,0,()
        else: c,K,A=1/s.R,s.K,s.A
        root=np.sqrt(1-(1+K)*c*c*r2)
        z=c*r2/(1+root); d=c/root/2   # dz/d(r2)
        for i,a in enumerate(A):
            p=i+2; a=a*10.0**(-3*(2*i+3))
            z=z+a*r2**p; d=d+a*p*r2**(p-1)
        return z,d
def refract(d,N,n1,n2):
    # N unit normal along propagation
    ci=np.sum(d*N,0); s=n1/n2
    root=np.sqrt(1-s*s*(1-ci*ci))
    return s*d+(root-s*ci)*N
def hit(P,d,z0,f):
    # surface z=z0+f(r2)
    t=(z0-P[2])/d[2]
    for _ in range(60):
        Q=P+t*d; zz,dz=f(Q[0]**2+Q[1]**2)
        F=Q[2]-z0-zz; dF=d[2]-2*dz*(Q[0]*d[0]+Q[1]*d[1])
        t=t-F/dF
    Q=P+t*d; zz,dz=f(Q[0]**2+Q[1]**2)
    N=np.array([-2*dz*Q[0],-2*dz*Q[1],np.ones_like(dz)]); N/=np.linalg.norm(N,axis=0)
    return Q,t,N
def side(lens,mfd,d,lam,guide=(0,0),dec=(0,0),tilt=0.0,reach=2.2,nr=61,sign=1):
    """returns function(x,y)-> complex field normalised to unit flux of the whole mode at vertex plane"""
    k=2*np.pi/lam; w=mfd/2
    zl=d-15.0
    q=np.linspace(0,min(.9995*k,11/w),6001); A=np.exp(-(q*w/2)**2); kz=np.sqrt(k*k-q*q)
    th=lam/np.pi/w; rmax=reach*np.sqrt(w*w+(th*zl)**2)*1.05
    rr=np.linspace(0,rmax,700)
    h=A*q*np.exp(1j*(kz-k)*zl)
    u=np.array([simpson(h*j0(q*r),x=q) for r in rr])
    ph=np.unwrap(np.angle(u)); am=abs(u)
    tot=2*np.pi*simpson(abs(A)**2*q*kz/k,x=q)   # flux of u normalised: int |A|^2 kz/k q dq * 2pi*(1/..)
    # same normalisation by Parseval: int |u|^2 2pi r dr = 2pi int |A|^2 q dq
    S=make_interp_spline(rr,ph,k=5); L=make_interp_spline(rr,np.log(am),k=5); dS=S.derivative()
    wz=np.sqrt(w*w+(th*zl)**2)
    g=np.linspace(-1,1,nr)*reach*wz
    X,Y=np.meshgrid(g,g); m=np.hypot(X,Y)<=reach*wz
    def trace(x,y):
        r=np.hypot(x,y)+1e-12; sr=dS(r)/k
        D=np.array([sr*x/r,sr*y/r,np.sqrt(1-sr*sr)])
        P=np.array([x+guide[0],y+guide[1],np.full_like(x,zl)])
        opl=np.zeros_like(x)
        # lens frame
        piv=np.array([0,0,d+lens.t/2]); M=turned(sign*tilt)
        off=np.array([dec[0],dec[1],0])
        P=M.T@(P-(piv+off)[:,None]); Dl=M.T@D   # pivot at lens centre
        n=1.0
        z1=-lens.t/2; z2=lens.t/2
        if lens.kind=='ball': f1=lambda r2: lens.sag(r2)
        else: f1=lambda r2:(0*r2,0*r2)
        P,t,N=hit(P,Dl,z1,f1); opl+=t; Dl=refract(Dl,N,1.0,lens.n)
        f2=lambda r2: tuple(-v for v in lens.sag(r2))
        P,t,N=hit(P,Dl,z2,f2); opl+=t*lens.n; Dl=refract(Dl,N,lens.n,1.0)
        P=M@P+(piv+off)[:,None]; Dl=M@Dl
        zp=d+lens.t
        t=(zp-P[2])/Dl[2]; P=P+t*Dl; opl+=t
        return P,Dl,opl,r,sr
    x,y=X[m],Y[m]
    P,Dl,opl,r,sr=trace(x,y)
    e=1e-2
    Px,_,_,_,_=trace(x+e,y); Pmx,_,_,_,_=trace(x-e,y); Py,_,_,_,_=trace(x,y+e); Pmy,_,_,_,_=trace(x,y-e)
    J=((Px[0]-Pmx[0])*(Py[1]-Pmy[1])-(Py[0]-Pmy[0])*(Px[1]-Pmx[1]))/(4*e*e)
    cos0=np.sqrt(1-sr*sr)
    lnamp=L(r)+0.5*np.log(cos0/(abs(J)*Dl[2]))-0.5*np.log(tot)
    phase=S(r)+k*opl
    # polynomial fit about chief
    cx,cy=P[0].mean(),P[1].mean(); sc=np.max(np.hypot(P[0]-cx,P[1]-cy))
    deg=12
    def basis(x,y):
        a,b=(x-cx)/sc,(y-cy)/sc
        pa=[np.polynomial.chebyshev.chebvander(a,deg),np.polynomial.chebyshev.chebvander(b,deg)]
        return np.stack([pa[0][...,i]*pa[1][...,j] for i in range(deg+1) for j in range(deg+1-i)],-1)
    B=basis(P[0],P[1]); wgt=np.exp(lnamp-lnamp.max())**.5
    cp=np.linalg.lstsq(B*wgt[:,None],(phase-phase.mean())*wgt,rcond=None)[0]
    ca=np.linalg.lstsq(B*wgt[:,None],lnamp*wgt,rcond=None)[0]
    res=np.max(abs((B@cp-(phase-phase.mean()))*wgt**2)),np.max(abs((B@ca-lnamp)*wgt**2))
    def field(x,y):
        rho=np.hypot(x-cx,y-cy)/sc
        out=np.zeros(x.shape,complex); mm=rho<=1
        Bq=basis(x[mm],y[mm]); out[mm]=np.exp(Bq@ca+1j*(Bq@cp)); return out
    return field,res
def loss(l1,l2,mf1,mf2,d1,d2,L,lam,plate=(500,1.5),g=(0,0),c1=(0,0),c2=(0,0),t1=0,t2=0,n=512,half=520,verbose=False):
    f1,r1=side(l1,mf1,d1,lam,g,c1,t1,sign=1); f2,r2=side(l2,mf2,d2,lam,(0,0),c2,t2,sign=-1)
    x=(np.arange(n)-n/2)*2*half/n; X,Y=np.meshgrid(x,x); dA=(x[1]-x[0])**2
    u=f1(X,Y); v=f2(X,Y)
    kx=2*np.pi*np.fft.fftfreq(n,x[1]-x[0]); KX,KY=np.meshgrid(kx,kx); k=2*np.pi/lam
    kz=lambda m: np.sqrt((m*k)**2-KX**2-KY**2+0j)
    U=np.fft.fft2(u)*np.exp(1j*(kz(1)*(L-plate[0])+kz(plate[1])*plate[0]))
    up=np.fft.ifft2(U)
    if verbose: print('residuals',r1,r2,'powers',np.sum(abs(u)**2)*dA,np.sum(abs(v)**2)*dA)
    return -10*np.log10(abs(np.sum(up*v)*dA)**2)

PATH = pathlib.Path(__file__).resolve().parent.parent / "tilted-relays.json"


def lens(row):
    if row["kind"] == "ball":
        return Lens("ball", row["index"], row["diameterUm"])
    return Lens("plano", row["index"], row["thicknessUm"], row["radiusUm"], row["conic"], row.get("aspheric", ()))


file = json.loads(PATH.read_text())
for case in file["cases"]:
    case["lossDb"] = round(float(loss(
        lens(case["lens1"]), lens(case["lens2"]), 10.4, 4.0, *case["gapsUm"], 2000, 1.55,
        g=case.get("guideUm", (0, 0)), c1=case.get("lens1Um", (0, 0)), c2=case.get("lens2Um", (0, 0)),
        t1=np.deg2rad(case.get("tilt1Deg", 0)), t2=np.deg2rad(case.get("tilt2Deg", 0)), n=256,
    )), 4)
PATH.write_text(json.dumps(file, indent=1) + "\n")
