# Facet modes above a silicon substrate: full-vector finite differences on staggered cells, with an absorbing border (complex stretch)
# inside the substrate. `python3 substrate_tm.py 0.04` prints effective index, leakage and losses to round modes of 3.2 and 10.4 um.
import numpy as np, scipy.sparse as sp, scipy.sparse.linalg as sl, sys
def solve(core,w,h,box,top,pol,lam=1.55,ns=3.4757,nox=1.444,h0=0.02,xmax=5.0,below=1.2,above=3.0):
    k=2*np.pi/lam
    # uniform grid; x from 0 (mirror) to xmax, y from -below to top+box+above(air)
    fx=np.arange(0,xmax+h0/2,h0); fy=np.arange(-below,box+top+above+h0/2,h0)
    nx,ny=len(fx)-1,len(fy)-1
    # stretch factor in y at position
    def s(y):
        d=np.clip((-y-0.15)/(below-0.15),0,None); return 1-1j*4.0*d**2
    hx=np.full(nx,h0)
    def eps_at(x,y):
        e=np.where(y<0,ns**2,np.where(y<box+top,nox**2,1.0))
        inside=(np.abs(x)<w/2)&(y>box)&(y<box+h)
        return np.where(inside,core**2,e)
    # subpixel averages by sampling
    def cellavg(x0,x1,y0,y1,mode):
        m=8
        ts=(np.arange(m)+0.5)/m
        X=x0[:,None]+(x1-x0)[:,None]*ts; Y=y0[:,None]+(y1-y0)[:,None]*ts
        E=eps_at(X[:,None,:,None],Y[None,:,None,:])  # nx,ny,m,m
        if mode=='x': return 1/np.mean(1/np.mean(E,axis=3),axis=2)   # harmonic along x of arithmetic along y
        if mode=='y': return 1/np.mean(1/np.mean(E,axis=2),axis=2)
        return np.mean(E,axis=(2,3))
    # Ex at (cell centre x, node y interior), Ey at (node x, cell centre y), Ez / divergence at nodes
    cx=(fx[1:]+fx[:-1])/2; cy=(fy[1:]+fy[:-1])/2
    xn=fx[:-1] if pol=='TM' else fx[1:-1]   # nodes holding Ey: on the mirror only if Ey is even
    yn=fy[1:-1]
    exx=cellavg(fx[:-1],fx[1:],cy[:-1],cy[1:],'x')           # nx, ny-1
    x0=np.maximum(xn-h0/2,-h0/2); eyy=cellavg(xn-h0/2,xn+h0/2,fy[:-1],fy[1:],'y')  # len(xn), ny
    ezz=cellavg(xn-h0/2,xn+h0/2,cy[:-1],cy[1:],'z')          # len(xn), ny-1
    NX,NY=len(xn),len(yn)
    sy_n=s(yn); sy_c=s(cy)
    # difference operators
    # dx from centres(nx) to nodes xn
    if pol=='TM': # mirror node at 0: Ex odd (Ex(-)= -Ex), so derivative there = 2 Ex0/h0
        A=sp.diags([np.r_[2.0,np.ones(NX-1)],-np.ones(NX-1)],[0,-1],shape=(NX,nx))/h0
        B=sp.diags([-np.ones(nx),np.ones(nx-1)],[0,1],shape=(nx,NX))/h0  # nodes to centres; last node (xmax) zero
    else:
        A=sp.diags([-np.ones(NX),np.ones(NX)],[0,1],shape=(NX,nx))/h0
        B=sp.diags([np.ones(NX),-np.ones(NX)],[0,-1],shape=(nx,NX))/h0 # node at 0 : Ey odd=0
    # for d/dx of even field Ex at mirror for TE (nodes exclude mirror): handled in curl terms: flux at mirror zero
    Cyn=sp.diags([-np.ones(NY),np.ones(NY)],[0,1],shape=(NY,ny))/h0      # cells->nodes
    Cyc=sp.diags([np.ones(NY),-np.ones(NY)],[0,-1],shape=(ny,NY))/h0     # nodes->cells
    Sn=sp.diags(1/sy_n); Sc=sp.diags(1/sy_c)
    Dyn=Sn@Cyn; Dyc=Sc@Cyc
    I=sp.identity
    kr=lambda a,b: sp.kron(a,b,format='csr')  # index ix*NY+iy
    exd=sp.diags(exx.ravel()); eyd=sp.diags(eyy.ravel()); ezi=sp.diags(1/ezz.ravel())
    # grad-div with eps: beta^2 E = lap E + k2 eps E + grad( (1/ez) div(eps E) ) - grad(div E)
    divE_x=kr(A,I(NY)); divE_y=kr(I(NX),Dyn)
    gx=kr(B,I(NY)); gy=kr(I(NX),Dyc)
    # curl Hz at (centre x, centre y): dEy/dx - dEx/dy
    cxy=kr(B,I(ny)); cyx=kr(I(nx),Dyc)   # B: nodes->centres of Ey ; Dyc: nodes->cells of Ex
    # back: d/dy Hz at Ex places: cells->nodes ; d/dx Hz at Ey places: centres->nodes (A for Hz parity opposite)
    if pol=='TM': A2=sp.diags([np.r_[2.0,np.ones(NX-1)],-np.ones(NX-1)],[0,-1],shape=(NX,nx))/h0
    else: A2=A
    by=kr(I(nx),Dyn); bx=kr(A2,I(ny))
    Pxx=gx@ezi@divE_x@exd + by@cyx + k*k*exd
    Pxy=gx@ezi@divE_y@eyd - by@cxy
    Pyy=gy@ezi@divE_y@eyd + bx@cxy + k*k*eyd
    Pyx=gy@ezi@divE_x@exd - bx@cyx
    # by@cyx = d/dy d/dy Ex ; sign check: curl curl gives -(d2/dy2)Ex + d2/dxdy Ey
    P=sp.bmat([[Pxx,Pxy],[Pyx,Pyy]],format='csc')
    return P,k,cx,yn,xn,cy,nx,NY,NX,ny
def mode(core,w,h,box,top,pol,guess,**kw):
    P,k,cx,yn,xn,cy,nx,NY,NX,ny=solve(core,w,h,box,top,pol,**kw)
    vals,vecs=sl.eigs(P,k=6,sigma=(guess*k)**2)
    out=[]
    for i in range(6):
        n=np.sqrt(vals[i])/k
        Ex=vecs[:nx*NY,i].reshape(nx,NY); Ey=vecs[nx*NY:,i].reshape(NX,ny)
        lead=Ex if pol=='TE' else Ey
        px=cx if pol=='TE' else xn; py=yn if pol=='TE' else cy
        wt=np.where(px==0,0.5,1.0)[:,None]
        ins=(py>0)
        # share near the core
        p=np.abs(lead)**2*wt
        frac=p[:,ins].sum()/ (np.abs(Ex)**2).sum()
        # overlap with round Gaussian at best y
        res=[]
        for mfd in (3.2,10.4):
            wg=mfd/2; best=0
            tot=(np.abs(Ex[:,yn>0])**2).sum()+(np.abs(Ey[:,cy>0])**2*np.where(xn==0,.5,1)[:,None]).sum()
            g0=np.exp(-px**2/wg**2)
            col=(lead*wt*g0[:,None]).sum(0)
            for yc in np.arange(box-1.5,box+4,0.05):
                g=np.exp(-(py-yc)**2/wg**2)
                num=abs((col[ins]*g[ins]).sum())**2
                den=tot*((g0**2*wt[:,0]).sum()*(g**2).sum())
                best=max(best,num/den)
            res.append(-10*np.log10(best))
        loss=2*k*abs(n.imag)*1e3*10/np.log(10)
        out.append((n,loss,res,p[:, (py>box)&(py<box+h)].sum()/p[:,ins].sum()))
    return sorted(out,key=lambda o:-o[3])
if __name__=='__main__':
    for a in [(3.4757,.18,.22,2,2,'TE',1.457),(3.4757,.15,.22,2,2,'TM',1.462),(3.4757,.18,.22,2,2,'TM',1.48),(1.996,.4,.2,4,4,'TM',1.4434)]:
        h=float(sys.argv[1]) if len(sys.argv)>1 else .04
        r=mode(*a,h0=h)
        for n,l,res,sh in r[:2]: print(a,n,'%.3f dB/mm'%l,['%.3f'%x for x in res],'core %.4f'%sh,flush=True)
